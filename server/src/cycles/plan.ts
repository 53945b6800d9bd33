// What the cycle engine is asked: a cone of the netlist, at rest, and what happens to its sources in one period, again
// and again. The columns are by position, operands before their readers; `predict/settled-plan.ts` makes them.

import type { Latch, Netlist, Register, RegisterId } from '../netlist/netlist';

export interface CyclePlan {
  readonly netlist: Netlist;
  readonly nodes: Uint32Array;
  /** Position by node, -1 where the node is outside. */
  readonly positionOf: Int32Array;
  readonly op: Uint8Array;
  readonly width: Uint32Array;
  readonly aux: Int32Array;
  /** First limb of 32 bits of each position's value. */
  readonly offset: Uint32Array;
  readonly first: Uint32Array;
  /** Operands; of a latch: gate, data, then control and value pairs. */
  readonly pool: Uint32Array;
  readonly readerFirst: Uint32Array;
  readonly readers: Uint32Array;
  readonly knots: readonly unknown[];
  readonly registers: readonly PlannedState[];
  readonly latches: readonly Latch[];
}

export interface PlannedState {
  readonly register: Register;
  readonly position: number;
  readonly data: number;
  readonly clock: number;
  readonly clockBit: number;
  readonly asynchronous: readonly {
    readonly control: number;
    readonly bit: number;
    readonly activeLevel: 0 | 1;
    readonly value: number;
  }[];
}

/** A bit of a source takes a level. */
export interface SourceChange {
  readonly position: number;
  readonly bit: number;
  readonly level: 0 | 1;
}

/** Bits [low + width - 1 : low] of a position, at most 64. */
export interface Watched {
  readonly position: number;
  readonly low: number;
  readonly width: number;
}

export interface CycleQuestion {
  readonly plan: CyclePlan;
  /** Both planes of all positions, at rest before the first instant of a period. */
  readonly values: { readonly a: Uint32Array; readonly b: Uint32Array };
  /** What changes at each instant of one period; at its end every source is back where it was. */
  readonly instants: readonly (readonly SourceChange[])[];
  /** Whether a register that samples in a later step of an instant meets what changed before in it, or not. */
  readonly order: (from: RegisterId | null, to: RegisterId) => 'old' | 'new' | 'race';
  readonly watched: readonly Watched[];
  /** Where given, a run ends when all of these bits are what they were at home: 32-bit limbs of the values with masks. */
  readonly home?: readonly { readonly limb: number; readonly mask: number }[];
}

/** Why something is left to the interpreter. */
export type CycleRefusal =
  | 'no-compiler'
  | 'loop-without-register'
  | 'operator-not-compiled'
  | 'clears-itself'
  | 'sources-do-not-return'
  | 'too-large';
