// A named net or variable of one module while that module is read. Numbered in order of declaration; a parent's copy
// gets its number by an offset.

import type { NodeId, ResolutionKind } from '../netlist/netlist';
import type { ArrayForm, Enumeration, PackedForm, RecordForm } from '../netlist/packed-form';
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
  /** Where the bits are no plain vector; `msb` and `lsb` then number them down to 0. */
  readonly packed?: ArrayForm | RecordForm;
  /** Of a plain vector: what its enumeration calls values. */
  readonly names?: Enumeration;
  /** Unpacked dimensions of the type's own, outermost first: what is declared by it is an array. */
  readonly dimensions?: readonly DeclaredRange[];
}

export interface DeclaredRange {
  readonly msb: number;
  readonly lsb: number;
  readonly width: number;
}

export function formOfShape({
  packed,
  width,
  msb,
  lsb,
  scalar,
  signed,
  names,
}: Omit<SignalShape, 'kind' | 'type'>): PackedForm {
  if (packed !== undefined) return packed;
  const vector = { kind: 'vector', width, msb, lsb, scalar, signed } as const;
  return names === undefined ? vector : { ...vector, names };
}

/** As a value: the index that stands first is the most significant, whichever way the indices run. */
export function elementsOver(element: PackedForm, { msb, lsb, width }: DeclaredRange): PackedForm {
  return { kind: 'array', width: width * element.width, msb, lsb, signed: false, element, isUnpacked: true };
}

/** What a declaration of `type` makes of a form. */
export function shapeOfForm(kind: SignalShape['kind'], type: string, form: PackedForm): SignalShape {
  const { width, signed } = form;
  if (form.kind !== 'vector') return { kind, type, width, msb: width - 1, lsb: 0, scalar: false, signed, packed: form };
  const { msb, lsb, scalar, names } = form;
  const plain = { kind, type, width, msb, lsb, scalar, signed };
  return names === undefined ? plain : { ...plain, names };
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
