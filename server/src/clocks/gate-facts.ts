// Definitions 8 and 9 for each clock that is more than a root, a register output or a copy of one: which gates stand in
// its way, what controls them, and whether that is sound. The nameless gates of one expression are judged as one.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import type { ListedClock } from './clock-list';
import { constantLevel, placeOfNode, sameBit, sourceOf } from './context';
import { type Bench, describeControl, type GatedClock, judgeControl, type Judgement, worstOf } from './gate-controls';
import { type Step, stepOf } from './gate-shape';
import { controlName } from './launches';
import type { GateFacts } from './network';
import { peel } from './peel';
import { type Branch, judgeMultiplexer, judgeSwitch } from './switches';
import { levelUnder } from './ternary';
import type { ClockWalk } from './clock-walk';

/** Null where the clock is no gate's output, or a gate without controls, or its clock operand is unclear. */
export function gateFactsOf(bench: Bench, clock: ListedClock): GateFacts | null {
  const { walk } = clock;
  if (walk.gate?.operands.style === 'switch') return switchFacts(bench, clock);
  const judged = clock.parts.flatMap((part) => judgePart(bench, clock, part));
  if (judged.length === 0 || walk.gate?.operands.style === 'unclear') return null;
  const { verdict, why } = worstOf(judged);
  const levels = new Set(judged.map(({ blockingLevel }) => blockingLevel));
  const [level] = levels.size === 1 ? levels : [null];
  return {
    kind: 'gate',
    blockingLevel: level,
    clockNames: clock.from.map((bit) => nameOf(bench, bit)),
    controls: judged.map(({ control }) => control),
    verdict,
    why,
    place: placeOfNode(bench.context, walk.bit.node),
  };
}

function nameOf({ context }: Bench, bit: Bit): string {
  return context.names.canonicalNameOf(bit) ?? controlName(context, bit);
}

interface JudgedPart extends Judgement {
  readonly blockingLevel: 0 | 1 | null;
}

/** One gate or latch of the clock's expression; nothing for buffers, inverters and decodes. */
function judgePart(bench: Bench, clock: ListedClock, part: ClockWalk): JudgedPart[] {
  const step = stepOf(bench.context, part.bit);
  if (step.kind === 'latch') return [judgeLatchInPath(bench, part, step)];
  if (part.gate?.operands.style !== 'gate' || part.isOpen) return [];
  const passed = passedClock(bench, part);
  const gated = { ...passed, name: clock.from.map((bit) => nameOf(bench, bit)).join(', ') };
  const { blockedOperand } = passed;
  return part.gate.operands.controls.map((bit) => ({
    ...judgeControl(bench, gated, bit),
    blockingLevel: blockedOperand,
  }));
}

/** What a gate passes, and the level of its one clock operand, or of the base of several, that blocks it. */
function passedClock(bench: Bench, part: ClockWalk): Omit<GatedClock, 'name'> & { blockedOperand: 0 | 1 | null } {
  const [first] = part.from.map(bench.walk);
  if (part.from.length === 1) {
    const blocked = blockingClockLevel(bench, part, first.bit);
    const blockedBase = blocked === null || first.sense === 'straight' ? blocked : opposite(blocked);
    return { clock: first, blockedBase, blockedOperand: blocked };
  }
  const haveOneBase = part.from.every((bit) => sameBit(bench.walk(bit).base, first.base));
  const blocked = haveOneBase ? blockingClockLevel(bench, part, first.base) : null;
  return { clock: first, blockedBase: blocked, blockedOperand: blocked };
}

/** The level of a clock at which the gate's output hangs on nothing else. */
function blockingClockLevel({ context }: Bench, part: ClockWalk, clock: Bit): 0 | 1 | null {
  const isHeld = (level: 0 | 1) => levelUnder(context, part.bit, new Map([[bitKey(clock), level]]), 0) !== 'x';
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
    control,
    verdict: 'unsound',
    why: { reason: 'latch-in-clock-path', args: { control: control.name, clock: nameOf(bench, gate.bit) } },
    blockingLevel: null,
  };
}

function switchFacts(bench: Bench, clock: ListedClock): GateFacts | null {
  const { walk } = clock;
  if (walk.gate === null) return null;
  const branches = walk.from.map((bit) => branchOf(bench, bit));
  const isGates = walk.gate.step.shape !== 'choice' && branches.every((branch) => branch !== null);
  const judged = isGates ? judgeSwitch(bench, walk, branches) : judgeMultiplexer(bench, walk, walk.gate.step.selects);
  return {
    kind: 'switch',
    blockingLevel: null,
    clockNames: clock.from.map((bit) => nameOf(bench, bit)),
    ...judged,
    place: placeOfNode(bench.context, walk.bit.node),
  };
}

/** The gate behind one operand of a switch; null where it is no gate of one clock with controls. */
function branchOf(bench: Bench, operand: Bit): Branch | null {
  const { bit } = peel(bench.context, operand);
  const part = bench.walk(bit);
  if (part.gate?.operands.style !== 'gate' || part.from.length !== 1 || part.isOpen) return null;
  const { clock, blockedBase } = passedClock(bench, part);
  const controls = part.gate.operands.controls.filter((control) => constantLevel(bench.context, control) === null);
  if (controls.length === 0) return null;
  return {
    gated: { clock, blockedBase, name: nameOf(bench, clock.bit) },
    controls,
    output: sourceOf(bench.context, bit),
  };
}
