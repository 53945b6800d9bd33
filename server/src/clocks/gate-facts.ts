// Definitions 8 and 9 for each clock that is more than a root, a register output or a copy of one: which gates stand in
// its way, what controls them, and whether that is sound. The nameless gates of one expression are judged as one.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import type { ListedClock } from './clock-list';
import { placeOfNode, sameBit } from './context';
import { type Bench, describeControl, type GatedClock, judgeControl, worstOf } from './gate-controls';
import { type Step, stepOf } from './gate-shape';
import { controlName } from './launches';
import type { GateFacts } from './network';
import { peel, peelToName } from './peel';
import { type Branch, judgeMultiplexer, judgeSwitch, type PartJudgement } from './switches';
import { levelUnder } from './ternary';
import type { ClockWalk } from './clock-walk';

/** Null where the clock is no gate's output, or a gate without controls, or its clock operand is unclear. */
export function gateFactsOf(bench: Bench, clock: ListedClock): GateFacts | null {
  if (clock.walk.gate?.operands.style === 'unclear') return null;
  const switches = clock.parts.filter(isSwitch).map((part) => judgeSwitchPart(bench, part));
  const covered = new Set(switches.flatMap(({ branches }) => branches));
  const gates = clock.parts.filter(({ bit }) => !covered.has(bitKey(bit)));
  const judged = [...switches, ...gates.flatMap((part) => judgePart(bench, clock, part))];
  if (judged.length === 0) return null;
  const { verdict, why } = worstOf(judged);
  const levels = new Set(judged.map(({ blockingLevel }) => blockingLevel));
  const [level] = levels.size === 1 ? levels : [null];
  return {
    kind: switches.length > 0 ? 'switch' : 'gate',
    blockingLevel: level,
    clockNames: clock.from.map((bit) => nameOf(bench, bit)),
    controls: judged.flatMap(({ controls }) => controls),
    verdict,
    why,
    place: placeOfNode(bench.context, clock.walk.bit.node),
  };
}

function nameOf({ context }: Bench, bit: Bit): string {
  return context.names.canonicalNameOf(bit) ?? controlName(context, bit);
}

interface JudgedPart extends PartJudgement {
  readonly blockingLevel: 0 | 1 | null;
}

/** One gate or latch of the clock's expression; nothing for buffers, inverters and decodes. */
function judgePart(bench: Bench, clock: ListedClock, part: ClockWalk): JudgedPart[] {
  const step = stepOf(bench.context, part.bit);
  if (step.kind === 'latch') return [judgeLatchInPath(bench, part, step)];
  if (part.gate?.operands.style !== 'gate' || part.isOpen) return [];
  const gated = gatedClock(bench, part, clock.from);
  return part.gate.operands.controls.map((bit) => {
    const { control, verdict, why } = judgeControl(bench, gated, bit);
    return { controls: [control], verdict, why, blockingLevel: gated.blockedLevel };
  });
}

/** What a gate passes. `named`: the clocks that a person would say it is made from. */
function gatedClock(bench: Bench, part: ClockWalk, named: readonly Bit[]): GatedClock {
  const [first] = part.from.map(bench.walk);
  const blockedBase = blockedBaseOf(bench, part, first);
  // A nameless inverter is told by what it turns over.
  const told = bench.walk(peelToName(bench.context, named[0]).bit);
  const level = blockedBase === null || told.sense === 'straight' ? blockedBase : opposite(blockedBase);
  return {
    clock: first,
    blockedBase,
    name: named.map((bit) => nameOf(bench, bit)).join(', '),
    blockedLevel: sameBit(told.base, first.base) ? level : null,
  };
}

/**
 * The level of the clock's base at which the gate's output hangs on nothing else. Of the base, not of the operand: in
 * `~((clk & f) | ~r)` the operand `clk & f` blocks while it is high, but a high clk does not make it so.
 */
function blockedBaseOf({ context, walk }: Bench, part: ClockWalk, { base }: ClockWalk): 0 | 1 | null {
  if (!part.from.every((bit) => sameBit(walk(bit).base, base))) return null;
  const isHeld = (level: 0 | 1) => levelUnder(context, part.bit, new Map([[bitKey(base), level]]), 0) !== 'x';
  if (isHeld(0)) return isHeld(1) ? null : 0;
  return isHeld(1) ? 1 : null;
}

function opposite(level: 0 | 1): 0 | 1 {
  return level === 0 ? 1 : 0;
}

/** A latch that passes a clock on moves whenever its data moves while it is open. */
function judgeLatchInPath(bench: Bench, part: ClockWalk, step: Extract<Step, { kind: 'latch' }>): JudgedPart {
  const [gate] = part.from.map(bench.walk);
  const { data } = bench.context.netlist.latches[step.latch];
  const control = describeControl(bench, gate, { node: data, bit: step.bit });
  return {
    controls: [control],
    verdict: 'unsound',
    why: { reason: 'latch-in-clock-path', args: { control: control.name, clock: nameOf(bench, gate.bit) } },
    blockingLevel: null,
  };
}

function isSwitch(part: ClockWalk): boolean {
  return part.gate?.operands.style === 'switch';
}

/** With the keys of the gates that it joins, which are judged with it. */
function judgeSwitchPart(bench: Bench, part: ClockWalk): JudgedPart & { branches: readonly number[] } {
  const branches = part.from.map((bit) => branchOf(bench, bit));
  const joins = part.gate?.step.shape !== 'choice' && branches.every((branch) => branch !== null);
  if (!joins) {
    return { ...judgeMultiplexer(bench, part, part.gate?.step.selects ?? []), blockingLevel: null, branches: [] };
  }
  const keys = branches.map(({ output }) => bitKey(output));
  return { ...judgeSwitch(bench, part, branches), blockingLevel: null, branches: keys };
}

/** The gate behind one operand of a switch; null where it is no gate of one clock with controls. */
function branchOf(bench: Bench, operand: Bit): Branch | null {
  const { bit } = peel(bench.context, operand);
  const part = bench.walk(bit);
  if (part.gate?.operands.style !== 'gate' || part.from.length !== 1 || part.isOpen) return null;
  const { controls } = part.gate.operands;
  if (controls.length === 0) return null;
  return { gated: gatedClock(bench, part, part.from), controls, output: part.bit };
}
