// Which facts a finding carries, by its identifier. More may be added; these keep their name and meaning. Findings of
// reading carry their reason and whatever its sentence names. Times in ps.

import type { FindingId } from '../hazards/finding';
import { count, flag, list, nullable, number, object, partial, type Shape, text } from './shape';

const reading = partial({ reason: text('which sentence') }, ['reason']);

const gate = object({
  clock: text(),
  root: nullable(text()),
  from: list(text(), 'the clocks it passes'),
  controls: list(text()),
  verdict: text('sound, unsound or possible'),
  reason: text(),
  registers: count('how many it clocks'),
  controlDelayMaxPs: nullable(number()),
  passingPs: nullable(number()),
});

const glitch = object({
  signal: text(),
  registers: list(text()),
  ends: list(text()),
  endKinds: list(text()),
  root: nullable(text()),
  delaySet: text(),
  reason: text(),
  certainTransitions: count(),
  possibleTransitions: count(),
  from: text(),
  to: text(),
  bits: count(),
  passes: list(text()),
  widestPs: number(),
  widestTypPs: number(),
  narrowestPs: number(),
  needsInputs: flag(),
  harmlessAbovePs: nullable(number()),
});

export const findingFacts: Readonly<Partial<Record<FindingId, Shape>>> = {
  'derived-clock': object({
    clock: text(),
    root: nullable(text()),
    from: list(text(), 'the clocks it is made from'),
    stage: count(),
    registers: count('how many it clocks outside ripple chains'),
    ratio: nullable(text()),
    uniform: nullable(flag()),
    arrivalMinPs: nullable(number()),
    arrivalTypPs: nullable(number()),
    arrivalMaxPs: nullable(number()),
  }),
  'ripple-chain': object({
    root: nullable(text()),
    stages: count(),
    settleMinPs: nullable(number()),
    settleTypPs: nullable(number()),
    settleMaxPs: nullable(number()),
    worstFrom: nullable(text()),
    worstTo: nullable(text()),
    maxClockHz: nullable(number()),
  }),
  'gated-clock': gate,
  'switched-clock': gate,
  'unclear-clock': object({ clock: text(), candidates: list(text()), registers: count() }),
  'skewed-transfer': object({
    from: text(),
    to: text(),
    fromClock: text(),
    toClock: text(),
    root: nullable(text()),
    dataAfterClockMinPs: number('when the data moves, after the clock edge that samples it'),
    dataAfterClockTypPs: number(),
    dataAfterClockMaxPs: number(),
    setupPs: number(),
    holdPs: number(),
  }),
  'bare-crossing': object({
    to: text(),
    from: list(text()),
    fromDomain: text(),
    toDomain: text(),
    bits: count(),
    depth: count(),
    throughLogic: flag(),
  }),
  'decoded-glitch': glitch,
  'glitch-into-clock': glitch,
  'glitch-into-reset': glitch,
  'glitch-into-latch': glitch,
  'unintended-latch': object({ latch: text(), flavor: text() }),
  'combinational-loop': object({
    signals: list(text()),
    bits: count(),
    feedback: text('what it does with a value that goes round: keeps, inverts or either'),
    latches: list(text(), 'latches that must be open for it'),
  }),
  'unknown-start': object({ register: text(), clock: text() }),
  'mixed-assignment': object({ signal: text(), how: text() }),
  'stale-sensitivity': object({
    targets: list(text(), 'what the process assigns'),
    missing: list(text(), 'what it reads and does not list'),
    listed: list(text()),
  }),
  'shared-driver': object({
    signal: text(),
    drivers: count(),
    while: list(text(), 'levels of ports that let two of them drive at one time; empty where they always do'),
  }),
  syntax: reading,
  unsupported: reading,
  'limit-reached': reading,
  'unresolved-name': reading,
  'unresolved-module': reading,
};
