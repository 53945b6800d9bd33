// Choices and variable indices in terms, as `netlist/evaluate-choice.ts` works them out. Where a rare unknown value
// would take more code than it is worth, a doubt is told instead: while a doubt is true, the period is not to be taken.

import type { Bits } from '../netlist/four-state';
import { Kind, type Term, type Terms } from './term-kinds';
import { differsFor } from './word-gates';
import { lowOnesPlane, shiftPlaneLeft, shiftPlaneRight } from './word-arithmetic';
import { chooseTree, labelValue, widestTree } from './word-tree';
import {
  anyOf,
  chooseWord,
  extendWord,
  isKnown,
  joinWords,
  knownWord,
  mergeWords,
  not,
  onesPlane,
  planeWith,
  sliceWord,
  spoiled,
  unknownIn,
  without,
  type Word,
  wordOfBits,
} from './words';

export type Doubt = (condition: Term) => void;

export function muxWord(terms: Terms, select: Word, whenOne: Word, whenZero: Word): Word {
  const chosen = chooseWord(terms, select.a[0], whenOne, whenZero);
  if (isKnown(terms, select)) return chosen;
  return chooseWord(terms, select.b[0], mergeWords(terms, whenOne, whenZero), chosen);
}

interface Case {
  readonly selector: Word;
  readonly labels: readonly Word[];
  readonly values: readonly Word[];
  readonly otherwise: Word;
  /** Label bits that match anything, by arm. */
  readonly wildcards: readonly Word[] | null;
}

/** Operands of a `select` node in their order. */
export function selectWord(terms: Terms, operands: readonly Word[], wildcards: readonly Bits[] | null, doubt: Doubt) {
  const arms = (operands.length - 2) / 2;
  const choice: Case = {
    selector: operands[0],
    labels: Array.from({ length: arms }, (_, arm) => operands[1 + 2 * arm]),
    values: Array.from({ length: arms }, (_, arm) => operands[2 + 2 * arm]),
    otherwise: operands[operands.length - 1],
    wildcards: wildcards === null ? null : wildcards.map((bits) => wordOfBits(terms, bits)),
  };
  const bySetting = armsBySetting(terms, choice);
  if (isKnown(terms, choice.selector)) {
    return bySetting === null || arms < 3
      ? chooseInOrder(terms, choice)
      : chooseTree(terms, choice.selector.a[0], valuesOf(choice, bySetting));
  }
  if (bySetting !== null && choice.selector.width <= 6) return chooseUnknown(terms, choice, bySetting);
  doubt(unknownIn(terms, choice.selector));
  return chooseInOrder(terms, {
    ...choice,
    selector: { ...choice.selector, b: choice.selector.a.map(() => terms.zero) },
  });
}

/** Which arm each value of the selector takes, -1 for none; null where the selector is wide or a label no constant. */
function armsBySetting(terms: Terms, { selector, labels, wildcards }: Case): readonly number[] | null {
  if (selector.width > widestTree || selector.width === 0) return null;
  const known = labels.map((label, arm) => labelValue(terms, label, wildcards?.[arm] ?? null));
  if (known.includes(null)) return null;
  return Array.from({ length: 2 ** selector.width }, (_, setting) =>
    known.findIndex((label) => label !== null && ((setting ^ label.value) & label.compared) === 0),
  );
}

function valuesOf({ values, otherwise }: Case, arms: readonly number[]): readonly Word[] {
  return arms.map((arm) => (arm < 0 ? otherwise : values[arm]));
}

/** Arm by arm, for a known selector; labels may be unknown, and then merge with what follows. */
function chooseInOrder(terms: Terms, { selector, labels, values, otherwise, wildcards }: Case): Word {
  const none = terms.zero;
  const matches = labels.map((label, arm) => {
    const skipped = wildcards?.[arm].a ?? selector.a.map(() => none);
    const unknown = without(terms, label.width, label.b, skipped);
    const differs = differsFor(terms, selector, label, planeWith(terms, Kind.or, unknown, skipped));
    return { can: not(terms, differs), isDoubtful: anyOf(terms, unknown) };
  });
  if (matches.every(({ isDoubtful }) => isDoubtful === none)) {
    return matches.reduceRight((rest, { can }, arm) => chooseWord(terms, can, values[arm], rest), otherwise);
  }
  let alive = terms.constant(1n);
  const reached = matches.map(({ can, isDoubtful }) => {
    const here = terms.make(Kind.and, alive, can);
    alive = terms.make(Kind.and, alive, not(terms, terms.make(Kind.and, can, not(terms, isDoubtful))));
    return here;
  });
  return mergeReached(terms, [...values, otherwise], [...reached, alive]);
}

/** The merge of all values that are reached: of one alone the value itself. */
function mergeReached(terms: Terms, values: readonly Word[], reached: readonly Term[]): Word {
  let merged = values[values.length - 1];
  let has = terms.zero;
  for (const [index, value] of values.entries()) {
    const taken = chooseWord(terms, has, mergeWords(terms, merged, value), value);
    merged = chooseWord(terms, reached[index], taken, merged);
    has = terms.make(Kind.or, has, reached[index]);
  }
  return merged;
}

/** With unknown bits in the selector: the merge of the arms that its settings take. */
function chooseUnknown(terms: Terms, choice: Case, arms: readonly number[]): Word {
  const { selector, values, otherwise } = choice;
  const reached = new Map<number, Term>();
  for (const [setting, arm] of arms.entries()) {
    const word = knownWord(terms, selector.width, [terms.constant(BigInt(setting))]);
    const isPossible = not(terms, differsFor(terms, selector, word, selector.b));
    reached.set(arm, terms.make(Kind.or, reached.get(arm) ?? terms.zero, isPossible));
  }
  const taken = [...reached.keys()];
  return mergeReached(
    terms,
    taken.map((arm) => (arm < 0 ? otherwise : values[arm])),
    taken.map((arm) => reached.get(arm) as Term),
  );
}

/** Bits at a variable index; outside the vector x. The index is signed and of at most 64 bits. */
export function readWord(terms: Terms, vector: Word, index: Word, width: number, doubt: Doubt): Word {
  doubt(unknownIn(terms, index));
  const { isPositive, value, most } = indexOf(terms, index);
  const below = isPositive ? 0 : width;
  const isInside = most !== null && most + width <= vector.width;
  const above = isInside ? 0 : width;
  const x = (bits: number): Word => ({ width: bits, a: onesPlane(terms, bits), b: onesPlane(terms, bits) });
  const padded = joinWords(
    terms,
    [x(above), vector, x(below)].filter((part) => part.width > 0),
  );
  const from = terms.make(Kind.add, value, terms.constant(BigInt(below)));
  const cut = (plane: 'a' | 'b') =>
    sliceWord(
      terms,
      knownWord(terms, padded.width, shiftPlaneRight(terms, padded.width, padded[plane], [from], 'zero')),
      0,
      width,
    ).a;
  const read = { width, a: cut('a'), b: isKnown(terms, padded) ? knownWord(terms, width, padded.b).b : cut('b') };
  if (isInside) return read;
  const last = terms.constant(BigInt(below + vector.width));
  return spoiled(terms, not(terms, terms.make(Kind.less, from, last)), read);
}

/** The vector with a piece written at a variable index, as in `readWord`; what falls outside changes nothing. */
export function writeWord(terms: Terms, vector: Word, index: Word, piece: Word, doubt: Doubt): Word {
  doubt(unknownIn(terms, index));
  const { isPositive, value } = indexOf(terms, index);
  const below = isPositive ? 0 : piece.width;
  const width = below + vector.width;
  const from = terms.make(Kind.add, value, terms.constant(BigInt(below)));
  const place = (plane: readonly Term[]) =>
    sliceWord(terms, knownWord(terms, width, shiftPlaneLeft(terms, width, plane, [from])), below, vector.width).a;
  const wide = extendWord(terms, piece, Math.max(width, piece.width), 'zero');
  const mask = place(lowOnesPlane(terms, width, Math.min(piece.width, width)).slice(0, wide.a.length));
  const written = (plane: 'a' | 'b') =>
    planeWith(
      terms,
      Kind.or,
      without(terms, vector.width, vector[plane], mask),
      place(cutTo(terms, wide, width)[plane]),
    );
  const b = isKnown(terms, vector) && isKnown(terms, piece) ? vector.b : written('b');
  return { width: vector.width, a: written('a'), b };
}

function cutTo(terms: Terms, word: Word, width: number): Word {
  return sliceWord(terms, word, 0, width);
}

/** A signed index as 64 bits; `most`: its greatest value where that is small. */
function indexOf(terms: Terms, index: Word) {
  const size = terms.sizes[index.a[0]];
  const isPositive = size < index.width;
  const value = isPositive
    ? index.a[0]
    : extendWord(terms, { ...index, b: index.b.map(() => terms.zero) }, 64, 'sign').a[0];
  return { isPositive, value, most: isPositive && size <= 30 ? 2 ** size - 1 : null };
}
