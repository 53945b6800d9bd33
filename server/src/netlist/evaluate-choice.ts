// Multiplexers, n-way cases and variable indices by the hardware reading: where the choice is unknown the result is
// the merge of everything that could still be chosen (definition 15 of the project).

import { allX, type Bits, fromLimbs, fromPlanes } from './four-state';
import { concat, merge, replaceSlice, slice } from './four-state-parts';
import { completionCount, possiblePositions, signedIndex } from './unknown-index';

/** `select` of width 1: 1, 0, or unknown, which merges. */
export function choose(select: Bits, whenOne: Bits, whenZero: Bits): Bits {
  if (select.b[0] !== 0) return merge(whenOne, whenZero);
  return select.a[0] === 1 ? whenOne : whenZero;
}

/**
 * Operands of a `select` node: selector, label and value of each arm, default. The first arm whose label matches is
 * taken. With unknown selector bits: the merge of what each setting of those bits would take, up to six of them;
 * beyond, of every arm that could match and of the default.
 */
export function chooseLabel(operands: readonly Bits[], wildcards: readonly Bits[] | null): Bits {
  const selector = operands[0];
  const chosen = firstMatch(operands, selector, wildcards);
  if (chosen !== null) return operands[chosen];
  const settings = settingsOf(selector);
  const reached =
    settings.length === 0 ? possibleArms(operands, wildcards) : armsBySetting(operands, settings, wildcards);
  return mergeAll(operands, reached);
}

export type Match = 'yes' | 'no' | 'perhaps';

/** `wildcards`: label bits that match anything. Of one width. */
export function labelMatch(selector: Bits, label: Bits, wildcards: Bits | null): Match {
  let match: Match = 'yes';
  for (let limb = 0; limb < selector.a.length; limb++) {
    const compared = wildcards === null ? -1 : ~wildcards.a[limb];
    const unknown = (selector.b[limb] | label.b[limb]) & compared;
    if (((selector.a[limb] ^ label.a[limb]) & compared & ~unknown) !== 0) return 'no';
    if (unknown !== 0) match = 'perhaps';
  }
  return match;
}

/** Bits [index + width - 1 : index]; outside the vector x. An unknown index merges every reading it could mean. */
export function readAt(vector: Bits, index: Bits, width: number): Bits {
  const known = signedIndex(index);
  if (known !== null) return slice(vector, known, width);
  const positions = possiblePositions(index, 1 - width, vector.width - 1);
  if (positions.length < completionCount(index)) return allX(width);
  return positions.map((position) => slice(vector, position, width)).reduce(merge);
}

/**
 * The vector with `piece` at the index; what falls outside changes nothing. An unknown index merges, bit by bit, the
 * old digit (if some index leaves the bit alone) with each digit of the piece that could land there.
 */
export function writeAt(vector: Bits, index: Bits, piece: Bits): Bits {
  const known = signedIndex(index);
  if (known !== null) return replaceSlice(vector, known, piece);
  const positions = possiblePositions(index, 1 - piece.width, vector.width - 1);
  return mergeWrites(vector, positions, piece, completionCount(index));
}

/** The operand index of the value taken for certain, or null where that hangs on an unknown. */
function firstMatch(operands: readonly Bits[], selector: Bits, wildcards: readonly Bits[] | null): number | null {
  const last = operands.length - 1;
  for (let index = 1; index < last; index += 2) {
    const match = labelMatch(selector, operands[index], wildcardsOf(wildcards, index));
    if (match === 'yes') return index + 1;
    if (match === 'perhaps') return null;
  }
  return last;
}

/** Operand indices of every value that could be taken, not asking which unknown selector bits go together. */
function possibleArms(operands: readonly Bits[], wildcards: readonly Bits[] | null): Set<number> {
  const reached = new Set<number>();
  const last = operands.length - 1;
  for (let index = 1; index < last; index += 2) {
    const match = labelMatch(operands[0], operands[index], wildcardsOf(wildcards, index));
    if (match !== 'no') reached.add(index + 1);
    if (match === 'yes') return reached;
  }
  return reached.add(last);
}

function armsBySetting(
  operands: readonly Bits[],
  settings: readonly Bits[],
  wildcards: readonly Bits[] | null,
): Set<number> {
  const reached = new Set<number>();
  for (const setting of settings) {
    const chosen = firstMatch(operands, setting, wildcards);
    if (chosen === null) return possibleArms(operands, wildcards);
    reached.add(chosen);
  }
  return reached;
}

const mostUnknownBits = 6;

/** The selector with its unknown bits set in every way; none when there are too many of them. */
function settingsOf(selector: Bits): Bits[] {
  const unknown: number[] = [];
  for (let bit = 0; bit < selector.width && unknown.length <= mostUnknownBits; bit++) {
    if (((selector.b[bit >>> 5] >>> (bit & 31)) & 1) === 1) unknown.push(bit);
  }
  if (unknown.length > mostUnknownBits) return [];
  return Array.from({ length: 1 << unknown.length }, (_, setting) => withBits(selector, unknown, setting));
}

/** The selector with bit `unknown[i]` set to bit i of `setting`; known in all others. */
function withBits(selector: Bits, unknown: readonly number[], setting: number): Bits {
  const a = selector.a.map((limb, index) => limb & ~selector.b[index]);
  unknown.forEach((bit, index) => {
    if (((setting >>> index) & 1) === 1) a[bit >>> 5] |= 1 << (bit & 31);
  });
  return fromLimbs(selector.width, a, new Uint32Array(a.length));
}

function mergeAll(operands: readonly Bits[], chosen: ReadonlySet<number>): Bits {
  let merged: Bits | null = null;
  for (const index of chosen) merged = merged === null ? operands[index] : merge(merged, operands[index]);
  return merged ?? operands[operands.length - 1];
}

function wildcardsOf(wildcards: readonly Bits[] | null, labelIndex: number): Bits | null {
  return wildcards === null ? null : wildcards[(labelIndex - 1) >>> 1];
}

const seenZero = 1;
const seenOne = 2;
const seenUnknown = 4;

function mergeWrites(vector: Bits, positions: readonly number[], piece: Bits, completions: number): Bits {
  const seen = new Uint8Array(vector.width);
  const writes = new Uint32Array(vector.width);
  for (const position of positions) {
    const until = Math.min(piece.width, vector.width - position);
    for (let bit = Math.max(0, -position); bit < until; bit++) {
      seen[position + bit] |= seenAt(piece, bit);
      writes[position + bit] += 1;
    }
  }
  const digits: Bits[] = [];
  for (let bit = vector.width - 1; bit >= 0; bit--) {
    const old = writes[bit] < completions ? seenAt(vector, bit) : 0;
    digits.push(writes[bit] === 0 ? slice(vector, bit, 1) : onlyDigit(seen[bit] | old));
  }
  return concat(digits);
}

function seenAt(value: Bits, bit: number): number {
  if (((value.b[bit >>> 5] >>> (bit & 31)) & 1) === 1) return seenUnknown;
  return ((value.a[bit >>> 5] >>> (bit & 31)) & 1) === 1 ? seenOne : seenZero;
}

function onlyDigit(seen: number): Bits {
  if (seen === seenZero) return fromPlanes(1, 0, 0);
  return seen === seenOne ? fromPlanes(1, 1, 0) : fromPlanes(1, 1, 1);
}
