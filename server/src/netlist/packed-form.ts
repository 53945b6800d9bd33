// How the bits of one value are made up (IEEE 1800-2017 7.2.1, 7.3.1, 7.4.1): a vector, an array of equal parts, or members
// beside or over one another. Bits are numbered from 0 = least significant, whatever the indices say.

import type { Bits } from './four-state';

export type PackedForm = VectorForm | ArrayForm | RecordForm;

interface Whole {
  readonly width: number;
  readonly signed: boolean;
}

/** Single bits; `scalar`: one without an index. */
export interface VectorForm extends Whole {
  readonly kind: 'vector';
  readonly msb: number;
  readonly lsb: number;
  readonly scalar: boolean;
  readonly names?: Enumeration;
}

/** Parts of one form; the index `msb` is the most significant. */
export interface ArrayForm extends Whole {
  readonly kind: 'array';
  readonly msb: number;
  readonly lsb: number;
  readonly element: PackedForm;
  /** Of unpacked words: no vector, and only a value of the same form can be assigned. */
  readonly isUnpacked?: true;
}

/** A structure, or a union, whose members all begin at bit 0. */
export interface RecordForm extends Whole {
  readonly kind: 'record';
  readonly isUnion: boolean;
  readonly members: readonly RecordMember[];
}

export interface RecordMember {
  readonly name: string;
  readonly low: number;
  readonly form: PackedForm;
  /** As written: logic, bit, int, … */
  readonly type: string;
}

/** The names that an enumeration gives to values, in order of declaration. */
export interface Enumeration {
  readonly members: readonly { readonly name: string; readonly value: Bits }[];
}

/** Position from the least significant part of a declared index; it may lie outside. */
export function partOfIndex({ msb, lsb }: { readonly msb: number; readonly lsb: number }, index: number): number {
  return msb >= lsb ? index - lsb : lsb - index;
}

/** The index as declared of a part counted from the least significant one. */
export function indexOfPart({ msb, lsb }: { readonly msb: number; readonly lsb: number }, part: number): number {
  return msb >= lsb ? lsb + part : lsb - part;
}

/** `[2].addr[3]`, what a bit is called behind the name of the whole; a scalar has nothing. */
export function bitSuffix(whole: PackedForm, bit: number): string {
  return sliceSuffixes(whole, bit, 1)[0];
}

/**
 * What names bits [low + width - 1 : low] behind the name of the whole: `[2]`, `[2:1]`, `.addr[3:0]`; several, most
 * significant first, where no one name does. Inside a union the first member that has the bits alone gives the name.
 */
export function sliceSuffixes(whole: PackedForm, low: number, width: number): readonly string[] {
  if (whole.kind === 'vector') return [vectorSuffix(whole, low, width)];
  if (low === 0 && width === whole.width) return [''];
  return whole.kind === 'array' ? arraySuffixes(whole, low, width) : recordSuffixes(whole, low, width);
}

function vectorSuffix(form: VectorForm, low: number, width: number): string {
  if (form.scalar) return '';
  const bottom = indexOfPart(form, low);
  return width === 1 ? `[${bottom}]` : `[${indexOfPart(form, low + width - 1)}:${bottom}]`;
}

/** Parts of elements at both ends, and the whole ones between them together. */
function arraySuffixes(form: ArrayForm, low: number, width: number): readonly string[] {
  const { element } = form;
  const until = low + width;
  const first = Math.ceil(low / element.width);
  const last = Math.floor(until / element.width);
  const inside = (part: number, from: number, to: number) =>
    sliceSuffixes(element, from - part * element.width, to - from).map(
      (suffix) => `[${indexOfPart(form, part)}]${suffix}`,
    );
  if (last < first) return inside(last, low, until);
  const above = until > last * element.width ? inside(last, last * element.width, until) : [];
  const below = first * element.width > low ? inside(first - 1, low, first * element.width) : [];
  if (last === first) return [...above, ...below];
  const bottom = indexOfPart(form, first);
  const whole = last - first === 1 ? `[${bottom}]` : `[${indexOfPart(form, last - 1)}:${bottom}]`;
  return [...above, whole, ...below];
}

function recordSuffixes(form: RecordForm, low: number, width: number): readonly string[] {
  const until = low + width;
  if (form.isUnion) {
    const owner = form.members.find((member) => until <= member.form.width) ?? form.members[0];
    return sliceSuffixes(owner.form, low, width).map((suffix) => `.${owner.name}${suffix}`);
  }
  return form.members.flatMap((member) => {
    const from = Math.max(low, member.low);
    const to = Math.min(until, member.low + member.form.width);
    if (from >= to) return [];
    return sliceOfMember(member, from, to).map((suffix) => `.${member.name}${suffix}`);
  });
}

function sliceOfMember({ form, low }: RecordMember, from: number, to: number): readonly string[] {
  const isWhole = from === low && to === low + form.width;
  return isWhole ? [''] : sliceSuffixes(form, from - low, to - from);
}
