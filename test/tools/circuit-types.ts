// What a circuit by hand is described with (see `circuit.ts`).

import type { DelayTriple, EdgeKind, Latch, NodeId } from '../../server/src/netlist/netlist';

/** A node with its width. `bit` and `bits` count from 0 = least significant, whatever a signal's declared indices. */
export interface Wire {
  readonly node: NodeId;
  readonly width: number;
  bit(index: number): Wire;
  bits(high: number, low: number): Wire;
}

/** A wire, or how to make it from the whole signal being declared, once everything is declared. */
export type Later = Wire | ((self: Wire) => Wire);

export interface Declaration {
  readonly width?: number;
  /** Declared indices; [width-1:0] where not given, none for width 1. */
  readonly range?: readonly [msb: number, lsb: number];
  readonly signed?: boolean;
  readonly port?: 'input' | 'output' | 'inout';
}

export interface AsynchronousOption {
  readonly control: Later;
  readonly active: 'high' | 'low';
  /** Digits, or what is loaded. */
  readonly value: string | Later;
}

export interface StateOptions {
  readonly asynchronous?: readonly AsynchronousOption[];
  /** Digits of the slice's width; all x where not given. */
  readonly initial?: string;
  /** Slices with the same word stand in one process; a process of its own where not given. */
  readonly process?: string;
}

export interface RegisterSlice extends StateOptions {
  /** Lowest bit, 0 where not given. */
  readonly low?: number;
  /** Width of the slice; the signal's where not given. */
  readonly width?: number;
  readonly clock: Later;
  /** rising where not given */
  readonly edge?: EdgeKind;
  readonly clockText?: string;
  readonly data: Later;
  /** Clock-to-output delay in the text. */
  readonly delay?: DelayOption;
  readonly enables?: readonly {
    readonly condition: Later;
    readonly text?: string;
    readonly low?: number;
    readonly width?: number;
  }[];
}

export interface LatchOptions extends Declaration, StateOptions {
  readonly gate: Later;
  /** high where not given */
  readonly active?: 'high' | 'low';
  readonly data: Later;
  readonly flavor?: Latch['flavor'];
  readonly othersComplete?: boolean;
}

/** ps: one number for all, or per direction; a number stands for min, typ and max. */
export type DelayOption =
  | number
  | { readonly rise: number | DelayTriple; readonly fall: number | DelayTriple; readonly toZ?: number | DelayTriple };

export function widthOf({ width, range }: Declaration): number {
  return width ?? (range === undefined ? 1 : Math.abs(range[0] - range[1]) + 1);
}

export function nodeOf(wire: Wire): NodeId {
  return wire.node;
}
