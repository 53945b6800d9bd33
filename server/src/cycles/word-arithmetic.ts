// Arithmetic and shifts in terms, as `netlist/evaluate-add.ts`, `-multiply` and `-shift` work them out. An unknown bit
// makes every bit x, a divisor of 0 too. Left out: division beyond 64 bits, and powers.

import { Kind, type Term, type Terms } from './term-kinds';
import { signOf } from './word-gates';
import {
  amount,
  anyOf,
  choosePlane,
  cutPlane,
  extendWord,
  isKnown,
  knownWord,
  maskOf,
  not,
  onesPlane,
  type Plane,
  spoiled,
  unknownIn,
  type Word,
  zeroPlane,
} from './words';

export function addWords(terms: Terms, left: Word, right: Word): Word {
  return spoiledBy(terms, [left, right], chained(terms, left.width, left.a, right.a, Kind.add));
}

export function subtractWords(terms: Terms, left: Word, right: Word): Word {
  return spoiledBy(terms, [left, right], chained(terms, left.width, left.a, right.a, Kind.subtract));
}

export function negateWord(terms: Terms, word: Word): Word {
  return subtractWords(terms, knownWord(terms, word.width, zeroPlane(terms, word.width)), word);
}

function spoiledBy(terms: Terms, operands: readonly Word[], a: Plane): Word {
  const unknown = operands.reduce((some, word) => terms.make(Kind.or, some, unknownIn(terms, word)), terms.zero);
  return spoiled(terms, unknown, knownWord(terms, operands[0].width, a));
}

/** A sum or a difference, limb by limb with what is carried or borrowed. */
function chained(terms: Terms, width: number, left: Plane, right: Plane, kind: number): Plane {
  let carried = terms.zero;
  return left.map((x, limb) => {
    const y = right[limb];
    const first = terms.make(kind, x, y);
    const total = terms.make(kind, first, carried);
    if (limb < left.length - 1) {
      const isSum = kind === Kind.add;
      const one = terms.make(Kind.less, isSum ? first : x, isSum ? x : y);
      const two = terms.make(Kind.less, isSum ? total : first, isSum ? first : carried);
      carried = terms.make(Kind.or, one, two);
    }
    return terms.make(Kind.and, total, terms.constant(maskOf(width, limb)));
  });
}

export function multiplyWords(terms: Terms, left: Word, right: Word): Word {
  const { width } = left;
  if (width <= 64) {
    const product = terms.make(Kind.multiply, left.a[0], right.a[0]);
    return spoiledBy(terms, [left, right], [terms.make(Kind.and, product, terms.constant(maskOf(width, 0)))]);
  }
  const digits = longProduct(terms, halvesOf(terms, left.a), halvesOf(terms, right.a));
  const limbs = left.a.map((_, limb) => {
    const high = terms.make(Kind.shiftLeft, digits[2 * limb + 1], amount(terms, 32));
    const joined = terms.make(Kind.or, digits[2 * limb], high);
    return terms.make(Kind.and, joined, terms.constant(maskOf(width, limb)));
  });
  return spoiledBy(terms, [left, right], limbs);
}

/** By digits of 32 bits: digit times digit plus two more digits still fits 64 bits. */
function longProduct(terms: Terms, left: Plane, right: Plane): readonly Term[] {
  const sum = new Array<Term>(left.length).fill(terms.zero);
  const low = terms.constant(0xffffffffn);
  for (const [i, x] of left.entries()) {
    let carried = terms.zero;
    for (let j = 0; i + j < left.length; j++) {
      const product = terms.make(Kind.multiply, x, right[j]);
      const total = terms.make(Kind.add, terms.make(Kind.add, product, sum[i + j]), carried);
      sum[i + j] = terms.make(Kind.and, total, low);
      carried = terms.make(Kind.shiftRight, total, amount(terms, 32));
    }
  }
  return sum;
}

function halvesOf(terms: Terms, plane: Plane): Plane {
  return plane.flatMap((limb) => [
    terms.make(Kind.and, limb, terms.constant(0xffffffffn)),
    terms.make(Kind.shiftRight, limb, amount(terms, 32)),
  ]);
}

/** Quotient or remainder of at most 64 bits. The quotient is cut off towards 0, the remainder has the first sign. */
export function divideWords(
  terms: Terms,
  left: Word,
  right: Word,
  kind: typeof Kind.divide | typeof Kind.remainder,
  sign: 'signed' | 'unsigned',
): Word {
  const isSigned = sign === 'signed';
  const [x, y] = isSigned ? [magnitude(terms, left), magnitude(terms, right)] : [left.a[0], right.a[0]];
  const isNought = not(terms, y);
  const divisor = terms.make(Kind.choose, isNought, terms.constant(1n), y);
  const plain = terms.make(kind, x, divisor);
  const isTurned =
    kind === Kind.divide ? terms.make(Kind.xor, signOf(terms, left), signOf(terms, right)) : signOf(terms, left);
  const result = isSigned ? terms.make(Kind.choose, isTurned, opposite(terms, left.width, plain), plain) : plain;
  return spoiled(terms, isNought, spoiledBy(terms, [left, right], [result]));
}

function magnitude(terms: Terms, word: Word): Term {
  return terms.make(Kind.choose, signOf(terms, word), opposite(terms, word.width, word.a[0]), word.a[0]);
}

function opposite(terms: Terms, width: number, value: Term): Term {
  return terms.make(Kind.and, terms.make(Kind.subtract, terms.zero, value), terms.constant(maskOf(width, 0)));
}

export function shiftWord(terms: Terms, value: Word, by: Word, kind: 'left' | 'right' | 'right-signed'): Word {
  const fill = kind === 'right-signed' ? 'sign' : 'zero';
  const move = (plane: Plane) =>
    kind === 'left'
      ? shiftPlaneLeft(terms, value.width, plane, by.a)
      : shiftPlaneRight(terms, value.width, plane, by.a, fill);
  const b = isKnown(terms, value) ? value.b : move(value.b);
  return spoiled(terms, unknownIn(terms, by), { width: value.width, a: move(value.a), b });
}

/** By a variable amount; nothing is left of a plane shifted by its width or more. */
export function shiftPlaneLeft(terms: Terms, width: number, plane: Plane, by: Plane): Plane {
  const reversed = [...plane].reverse();
  const moved = moveLimbs(
    terms,
    reversed,
    by,
    reversed.map(() => terms.zero),
  );
  const shifted = moved.limbs.map((limb, index) => {
    const high = terms.make(Kind.shiftLeft, limb, moved.rest);
    if (index + 1 === moved.limbs.length) return high;
    return terms.make(Kind.or, high, spill(terms, moved.limbs[index + 1], moved.rest, Kind.shiftRight));
  });
  return shifted.reverse().map((limb, index) => terms.make(Kind.and, limb, terms.constant(maskOf(width, index))));
}

export function shiftPlaneRight(terms: Terms, width: number, plane: Plane, by: Plane, fill: 'zero' | 'sign'): Plane {
  const filled = fill === 'zero' ? terms.zero : signFill(terms, width, plane);
  const wide = fill === 'zero' ? plane : signExtended(terms, width, plane);
  const moved = moveLimbs(
    terms,
    wide,
    by,
    wide.map(() => filled),
  );
  return moved.limbs.map((limb, index) => {
    const isTop = index + 1 === moved.limbs.length;
    const kind = isTop && fill === 'sign' ? Kind.shiftRightSigned : Kind.shiftRight;
    const low = terms.make(kind, limb, moved.rest);
    const joined = isTop
      ? low
      : terms.make(Kind.or, low, spill(terms, moved.limbs[index + 1], moved.rest, Kind.shiftLeft));
    return terms.make(Kind.and, joined, terms.constant(maskOf(width, index)));
  });
}

/** All ones where the most significant bit is set. */
function signFill(terms: Terms, width: number, plane: Plane): Term {
  const top = cutPlane(terms, plane, width - 1, 1)[0];
  return terms.make(Kind.choose, top, terms.constant(-1n), terms.zero);
}

function signExtended(terms: Terms, width: number, plane: Plane): Plane {
  const word = knownWord(terms, width, plane);
  return extendWord(terms, word, 64 * plane.length, 'sign').a;
}

/** What of the next limb comes in: shifted by 64 less the amount, in two steps since the amount may be 0. */
function spill(terms: Terms, limb: Term, rest: Term, kind: number): Term {
  const one = terms.make(kind, limb, terms.constant(1n));
  return terms.make(kind, one, terms.make(Kind.xor, rest, terms.constant(63n)));
}

/** Limbs moved down by whole limbs, as often as the amount holds 64; and what is left of the amount. */
function moveLimbs(terms: Terms, limbs: Plane, by: Plane, fill: Plane): { readonly limbs: Plane; readonly rest: Term } {
  const low = by.length === 0 ? terms.zero : by[0];
  let moved = limbs;
  const steps = Math.ceil(Math.log2(limbs.length));
  for (let step = 0; step < steps; step++) {
    const isSet = cutPlane(terms, [low], 6 + step, 1)[0];
    const far = moved.map((_, index) => (index + 2 ** step < moved.length ? moved[index + 2 ** step] : fill[0]));
    moved = choosePlane(terms, isSet, far, moved);
  }
  const beyond = [terms.make(Kind.shiftRight, low, amount(terms, 6 + steps)), ...by.slice(1)];
  moved = choosePlane(terms, anyOf(terms, beyond), fill, moved);
  return { limbs: moved, rest: terms.make(Kind.and, low, terms.constant(63n)) };
}

/** Ones in the low bits, as a plane. */
export function lowOnesPlane(terms: Terms, width: number, ones: number): Plane {
  return extendWord(terms, knownWord(terms, ones, onesPlane(terms, ones)), width, 'zero').a;
}
