// The report's entry for a signal: its transitions with a witness each, its ends with what makes them harmless.

import type { Why } from '../clocks/network';
import { everySet } from '../delays/own-delays';
import type { Certainty } from './finding';
import type { Glitch, GlitchEnd, GlitchTransition } from './glitch';
import type { EndPin } from './glitch-ends';
import { type FreeInputs, levelIn } from './glitch-inputs';
import type { Workshop } from './glitch-parts';
import { registerBitsOf } from './glitch-sources';
import type { Way } from './glitch-states';
import type { FoundTransition, Tally } from './glitch-tally';
import type { Basis } from './glitch-case';
import type { HazardContext } from './context';
import type { GlitchReason } from './reasons-glitch';

export type GlitchContext = Omit<HazardContext, 'glitches' | 'violations' | 'reads'>;

/** At most one certain and one possible. */
export function glitchesOf(context: GlitchContext, workshop: Workshop, tally: Tally): Glitch[] {
  const certain = tally.certain.filter(isSure);
  const doubted = tally.certain.filter((found) => !isSure(found));
  return [
    ...glitchOf({ context, workshop, tally }, 'certain', certain),
    ...glitchOf({ context, workshop, tally }, 'possible', [...doubted, ...tally.possible]),
  ];
}

/** Whether bits that are not followed ever stand as they were chosen is not known: two of another clock, one of this. */
function isSure({ inputs }: FoundTransition): boolean {
  return inputs.foreign < 2 && inputs.cut === 0;
}

interface EntryInput {
  readonly context: GlitchContext;
  readonly workshop: Workshop;
  readonly tally: Tally;
}

function glitchOf(input: EntryInput, certainty: Certainty, found: readonly FoundTransition[]): Glitch[] {
  if (found.length === 0) return [];
  const { candidate } = input.tally;
  const ends = candidate.ends.map((pin) => endOf(input, pin));
  return [
    {
      bit: candidate.bit,
      signal: candidate.signal,
      certainty,
      registers: registerBitsOf(candidate.scene).map(({ register, bit, name }) => ({ register, bit, name })),
      transitions: found.map(transitionOf),
      ends,
      harmless: ends.every(({ harmless }) => harmless),
      why: whyOf(input, found),
      place: candidate.place,
    },
  ];
}

function transitionOf({ judgement, from, to, way, inputs }: FoundTransition): GlitchTransition {
  return {
    from: numberOf(from),
    to: numberOf(to),
    passes: judgement.passes.map(({ at, level }) => ({ at, value: String(level) })),
    pulse: judgement.pulse,
    witness: witnessOf(inputs, way),
  };
}

function numberOf(digits: string): string {
  return digits.includes('x') ? digits : BigInt(`0b${digits}`).toString();
}

/**
 * Inputs at the first edge, from then on those that change, by root period; the last entry stands for the transition
 * itself, also where nothing changes there. Empty where there is no choice.
 */
function witnessOf(inputs: FreeInputs, last: Way): GlitchTransition['witness'] {
  if (inputs.choices.length === 0) return [];
  const ways: Way[] = [];
  for (let way: Way | null = last; way !== null; way = way.before) ways.push(way);
  let before: readonly string[] = [];
  let settingBefore = -1;
  const witness: GlitchTransition['witness'][number][] = [];
  for (const way of ways.reverse()) {
    const { setting, period } = way;
    if (setting === settingBefore && way !== last) continue;
    settingBefore = setting;
    const levels = inputs.choices.map((_, choice) => String(levelIn(inputs, setting, choice)));
    const changed = inputs.choices.map(({ signal }, choice) => ({ signal, value: levels[choice] }));
    const set = changed.filter((_, choice) => levels[choice] !== before[choice]);
    if (set.length > 0 || way === last) witness.push({ period, inputs: set });
    before = levels;
  }
  return witness;
}

/**
 * Data that settles, with the reader's setup, within the period is harmless; a reader at the other edge has half of it.
 * What reads a port or a black box's pin is not known, so nothing there is called harmless.
 */
function endOf({ context, workshop, tally }: EntryInput, pin: EndPin): GlitchEnd {
  const harmlessAbovePs = pin.kind === 'data' ? leastPeriod(context, workshop, tally, pin) : null;
  const { root } = tally.candidate.scene;
  const clock = context.prediction.drive.clocks.find((driven) => driven.root === root);
  const harmless = harmlessAbovePs !== null && clock !== undefined && clock.period >= harmlessAbovePs;
  return { kind: pin.kind, signal: pin.signal, harmless, harmlessAbovePs, place: pin.place };
}

function leastPeriod({ prediction }: GlitchContext, { network }: Workshop, tally: Tally, pin: EndPin): number | null {
  if (tally.settled === null) return null;
  // Which reader this is is not known here: the longest setup of any of them is enough for it.
  const setup = everySet(prediction.delaySet).reduce((most, set) => Math.max(most, set.setup?.max ?? 0), 0);
  const needed = tally.settled + setup;
  const launching = registerBitsOf(tally.candidate.scene).map(({ register }) => network.registers[register].root?.edge);
  return launching.every((edge) => edge === pin.rootEdge && edge !== 'either') ? needed : 2 * needed;
}

const reasons: Readonly<Record<Basis, GlitchReason>> = {
  order: 'glitch-fixed-order',
  'open-order': 'glitch-open-order',
  'unknown-structure': 'glitch-unknown-structure',
  'unknown-bits': 'glitch-unknown-bits',
  'not-all-tried': 'glitch-orders-untried',
};

/** Of several, the one that weighs most for the reader: an order that can happen before a structure not known. */
const weightiest: readonly Basis[] = ['order', 'open-order', 'not-all-tried', 'unknown-bits', 'unknown-structure'];

function whyOf({ context }: EntryInput, found: readonly FoundTransition[]): Why {
  const delaySet = context.prediction.delaySet.name;
  // Every one of them hangs on bits that may never stand so: that is said before what the order is.
  const unsure = found.filter((one) => !isSure(one));
  if (unsure.length === found.length) return doubtWhy(unsure, delaySet);
  const met = new Set(found.map(({ judgement }) => judgement.basis));
  const basis = weightiest.find((candidate) => met.has(candidate)) ?? 'open-order';
  return { reason: reasons[basis], args: { delaySet } };
}

function doubtWhy(found: readonly FoundTransition[], delaySet: string): Why {
  const choices = found.flatMap(({ inputs }) => inputs.choices);
  const isCut = choices.some(({ kind }) => kind === 'cut');
  const named = choices.filter(({ kind }) => kind === (isCut ? 'cut' : 'foreign'));
  const names = [...new Set(named.map(({ clock, signal }) => (isCut ? signal : (clock ?? signal))))];
  const listed = names.length > mostNamed ? [...names.slice(0, mostNamed), '…'] : names;
  const reason: GlitchReason = isCut ? 'glitch-unfollowed-bits' : 'glitch-foreign-bits';
  return { reason, args: isCut ? { delaySet, bits: listed.join(', ') } : { delaySet, clock: listed.join(', ') } };
}

const mostNamed = 4;
