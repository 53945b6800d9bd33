// A named net or variable of one module while that module is read. Numbered in order of declaration; a parent's copy
// gets its number by an offset.

import type { NodeId, ResolutionKind } from '../netlist/netlist';
import type { At, Direction } from '../syntax/tables';

export interface LocalSignal {
  readonly kind: 'signal';
  readonly index: number;
  /** From the module down: generate and procedural blocks, own name. */
  readonly path: string;
  readonly name: string;
  readonly at: At;
  /** Changed while the port's declarations are joined (a port, then `reg` for the same name), fixed afterwards. */
  shape: SignalShape;
  port: Direction | null;
  /** Of a loop, a function or a task: it has a value only while that is followed, and is never listed. */
  readonly isPrivate: boolean;
  /** Whether a port's second declaration has been met. */
  isJoined: boolean;
  /** The whole signal as a draft reads it; made when first read. */
  draft: NodeId | null;
}

export interface SignalShape {
  readonly kind: 'net' | 'variable';
  /** As written: wire, wor, reg, integer, … */
  readonly type: string;
  readonly width: number;
  readonly msb: number;
  readonly lsb: number;
  readonly scalar: boolean;
  readonly signed: boolean;
}

/** How several drivers of a net of this type are resolved (IEEE 1364-2005 4.6). */
export function resolutionOf(type: string): ResolutionKind {
  if (type === 'wand' || type === 'triand') return 'wand';
  if (type === 'wor' || type === 'trior') return 'wor';
  if (type === 'tri0' || type === 'tri1') return type;
  return 'wire';
}

/** Bit number from the least significant one of a declared index; outside the range: below 0 or from the width on. */
export function bitOfIndex({ msb, lsb }: Pick<SignalShape, 'msb' | 'lsb'>, index: number): number {
  return msb >= lsb ? index - lsb : lsb - index;
}
