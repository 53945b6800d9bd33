// Movements of what hears itself without a clock between: a count that clears itself, a pair of cross-coupled gates. No
// order of the circuit exists there; the typical run's is followed, change by change, each with the bounds of its own
// chain of causes. Such windows are never called exact.

import { type MoveState, smear } from './window-moves';
import type { Level, Waves } from './waves';
import { ChangeKind } from './waves';
import type { DelayBounds } from './window-plan';

/** Earliest and latest instant of every change of a run along its causes, ps. */
export interface ChangeBounds {
  readonly min: Float64Array;
  readonly max: Float64Array;
}

/** `delayOf`: of what made a change, by dense bit and kind. */
export function changeBounds(
  { changes: { bit, cause, count, kind, node, time, value } }: Waves,
  delayOf: (node: number, bit: number, kind: number) => DelayBounds,
): ChangeBounds {
  const [min, max] = [new Float64Array(count), new Float64Array(count)];
  for (let change = 0; change < count; change++) {
    const from = cause[change];
    if (from < 0 || kind[change] === ChangeKind.drive) {
      min[change] = time[change];
      max[change] = time[change];
      continue;
    }
    const delay = delayOf(node[change], bit[change], kind[change]);
    min[change] = min[from] + delay.min[value[change]];
    max[change] = max[from] + delay.max[value[change]];
  }
  return { min, max };
}

const none = { min: [0, 0, 0, 0], max: [0, 0, 0, 0] };

/** `changes`: those of the bit behind this root edge, in their order. */
export function moveByRun(
  state: MoveState,
  bit: number,
  changes: readonly number[],
  { bounds, waves, root }: LoopRun,
): void {
  if (changes.length === 0) return;
  const to = waves.changes.value[changes[changes.length - 1]] as Level;
  const min = Math.min(...changes.map((change) => bounds.min[change]));
  const max = Math.max(...changes.map((change) => bounds.max[change]));
  smear(state, bit, to, { from: [root], min, max, delay: none });
}

export interface LoopRun {
  readonly bounds: ChangeBounds;
  readonly waves: Waves;
  /** Event of the root edge. */
  readonly root: number;
}
