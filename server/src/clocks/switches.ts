// Definition 9, last sentence: a switch between clocks is sound as an AND-OR (or its mirror image) of gates that are
// sound each by itself, where every enable waits until every other is off. A plain multiplexer never is.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { type Context, sourceOf } from './context';
import { type Bench, describeControl, type GatedClock, judgeControl, type Judgement, worstOf } from './gate-controls';
import { controlName, launchesOf } from './launches';
import type { Why } from './network';
import { peel } from './peel';
import { levelUnder } from './ternary';
import type { ClockWalk } from './clock-walk';

/** One of the gates that a switch joins. */
export interface Branch {
  readonly gated: GatedClock;
  readonly controls: readonly Bit[];
  readonly output: Bit;
}

/** The verdict on one gate or switch, with all that controls it. */
export interface PartJudgement {
  readonly verdict: Judgement['verdict'];
  readonly why: Why;
  readonly controls: readonly Judgement['control'][];
}

/** Flip-flops between an enable and the decision that made it, and between an enable and whoever waits for it. */
const longestGuard = 6;

export function judgeMultiplexer(bench: Bench, switched: ClockWalk, selects: readonly Bit[]): PartJudgement {
  const controls = selects.map((select) => describeControl(bench, switched, select));
  const judged = selects.map((select, index) => {
    const { registers, latches, outside } = launchesOf(bench.context, select);
    const args = { control: controls[index].name };
    if (registers.length + latches.length > 0) {
      return { verdict: 'unsound' as const, why: { reason: 'multiplexer-select-unguarded', args } };
    }
    if (outside.length > 0)
      return { verdict: 'possible' as const, why: { reason: 'multiplexer-select-from-port', args } };
    return { verdict: 'strapped' as const, why: { reason: 'multiplexer-select-constant', args } };
  });
  if (judged.length === 0) return { verdict: 'unsound', why: { reason: 'clocks-joined', args: {} }, controls };
  return { ...worstOf(judged), controls };
}

export function judgeSwitch(bench: Bench, switched: ClockWalk, branches: readonly Branch[]): PartJudgement {
  const judged = branches.flatMap(({ gated, controls }) => controls.map((bit) => judgeControl(bench, gated, bit)));
  const controls = judged.map(({ control }) => control);
  const worst = worstOf(judged);
  if (worst.verdict === 'unsound' || worst.verdict === 'possible') {
    return { verdict: worst.verdict, why: worst.why, controls };
  }
  const unguarded = firstUnguarded(bench, branches) ?? firstBlocking(bench, switched, branches);
  if (unguarded !== null) return { verdict: 'unsound', why: unguarded, controls };
  return { verdict: worst.verdict, why: { reason: 'enables-cross-guarded', args: {} }, controls };
}

/** A branch that does not wait for another one to be off; a strapped branch waits for nothing and holds up nobody. */
function firstUnguarded(bench: Bench, branches: readonly Branch[]): Why | null {
  const moving = branches.filter(({ controls }) =>
    controls.some((bit) => launchesOf(bench.context, bit).source !== 'constant'),
  );
  for (const waits of moving) {
    for (const other of moving) {
      if (waits === other || isGuarded(bench, waits, other)) continue;
      const [control, guard] = [waits, other].map(({ controls }) => controlName(bench.context, controls[0]));
      return { reason: 'enables-not-guarded', args: { control, guard } };
    }
  }
  return null;
}

/** A branch that, switched off, holds the whole switch still instead of leaving it to the others. */
function firstBlocking({ context }: Bench, switched: ClockWalk, branches: readonly Branch[]): Why | null {
  for (const branch of branches) {
    for (const control of branch.controls) {
      const blocking = blockingLevel(context, branch, control);
      const held = new Map(blocking === null ? [] : [[bitKey(sourceOf(context, control)), blocking] as const]);
      if (levelUnder(context, switched.bit, held, 0) === 'x') continue;
      return { reason: 'branch-blocks-switch', args: { control: controlName(context, control) } };
    }
  }
  return null;
}

/** While every control of `other` lets its clock pass, some control of `waits` comes to block. */
function isGuarded({ context }: Bench, waits: Branch, other: Branch): boolean {
  const passing = new Map<number, 0 | 1>();
  for (const control of other.controls) {
    const { bit, inverted } = peel(context, control);
    const blocking = blockingLevel(context, other, control);
    if (blocking !== null) passing.set(bitKey(bit), inverted === (blocking === 1) ? 1 : 0);
  }
  return waits.controls.some((control) => {
    const blocking = blockingLevel(context, waits, control);
    return blocking !== null && levelUnder(context, control, passing, longestGuard) === blocking;
  });
}

/** The level of a control that holds its gate's output still, whatever the clock does. */
function blockingLevel(context: Context, { output }: Branch, control: Bit): 0 | 1 | null {
  const source = sourceOf(context, control);
  const holds = (level: 0 | 1) => levelUnder(context, output, new Map([[bitKey(source), level]]), 0) !== 'x';
  if (holds(0)) return 0;
  return holds(1) ? 1 : null;
}
