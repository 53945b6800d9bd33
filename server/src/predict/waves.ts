// The predicted waveforms: a start value for every bit and a log of changes, each with its cause. Columns, so that a
// long run costs little; times in ps. Bits are those of `register`, `latch`, source and operator nodes after wiring is
// looked through (`sourceBit`): a net's wave is its driver's, unless an explicit delay or a resolution stands between.

import type { Bit, Netlist, NodeId } from '../netlist/netlist';

/** 0, 1, z, x as numbers: a + 2·b of the four-state planes (z = 2, x = 3). */
export type Level = 0 | 1 | 2 | 3;

export const ChangeKind = {
  /** A clock, reset or held input as driven. */
  drive: 0,
  /** A register's output after an active edge; the cause is the change of its clock pin. */
  sampled: 1,
  /** A register's output under an asynchronous control; the cause is the change of the control (or of the loaded value). */
  asynchronous: 2,
  /** A latch's output; the cause is its gate's or its data's change. */
  latch: 3,
  /** Logic: the cause is the change of the operand that made it. */
  logic: 4,
} as const;

export interface Changes {
  readonly count: number;
  /** ps, never decreasing */
  readonly time: Float64Array;
  readonly node: Uint32Array;
  readonly bit: Uint32Array;
  readonly value: Uint8Array;
  /** Index of the change that caused this one, -1 for the drive. Always smaller than this one's own index. */
  readonly cause: Int32Array;
  readonly kind: Uint8Array;
}

export interface Waves {
  /** As the run had it: its memories know the contents that the run made, by the numbers that stand in the waves. */
  readonly netlist: Netlist;
  /** ps: everything before this instant is predicted. */
  readonly end: number;
  readonly changes: Changes;
  /** Value at time 0 of a bit, as given by its wiring-free source (see `sourceBit`). */
  startOf(bit: Bit): Level;
  /** Indices of the changes of a bit in time order; empty where it never changes. */
  changesOf(bit: Bit): ArrayLike<number>;
  /** The run was cut by a limit (changes or steps inside one instant); null where it is whole. */
  readonly cut: {
    readonly limit: 'changes' | 'instantSteps';
    readonly at: number;
    readonly nodes: readonly NodeId[];
  } | null;
  /** Registers and latches whose sample was a race, a perhaps-edge or a timing violation: merged values. */
  readonly doubts: readonly Doubt[];
}

/**
 * A value that is not sure, merged unless said otherwise. `race`: what was sampled moved at the same instant (definitions 28 and 34); `perhaps-edge`: the clock
 * went from or to an unknown level (16); `setup-hold`: what was sampled moved inside the stated window (30); `crossing`:
 * a race or a violation with what an unrelated clock moved: not merged, but old or new by the run's seed (31).
 */
export interface Doubt {
  /** ps: the instant of the sample; for a hold violation, of the change that violates it. */
  readonly time: number;
  readonly node: NodeId;
  readonly kind: 'race' | 'perhaps-edge' | 'setup-hold' | 'crossing';
  /** Index of the change of the clock pin; -1 where that was cut off. */
  readonly cause: number;
}
