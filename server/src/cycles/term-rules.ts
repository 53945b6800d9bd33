// What a term is worth making: constants are worked out, what changes nothing is left out. Each rule holds for all
// values of 64 bits; sizes (bits that may be set) make most masks superfluous.

import { Kind, type Term, type Terms } from './term-kinds';

/** A term of the same value that is simpler, or null. Of commutative operators a constant comes as `y`. */
export function simplified(terms: Terms, kind: number, x: Term, y?: Term, z?: Term): Term | null {
  const [a, b] = [terms.valueOf(x), y === undefined ? null : terms.valueOf(y)];
  if (kind === Kind.choose) return simplifiedChoice(terms, a, x, y as Term, z as Term);
  if (a !== null && (y === undefined || b !== null)) return terms.constant(worked(kind, a, b ?? 0n));
  if (y === undefined) return kind === Kind.isZero ? simplifiedIsZero(terms, x) : null;
  return b === null ? withItself(terms, kind, x, y, a) : withConstant(terms, kind, x, y, b);
}

function worked(kind: number, a: bigint, b: bigint): bigint {
  switch (kind) {
    case Kind.and:
      return a & b;
    case Kind.or:
      return a | b;
    case Kind.xor:
      return a ^ b;
    case Kind.add:
      return a + b;
    case Kind.subtract:
      return a - b;
    case Kind.multiply:
      return a * b;
    case Kind.divide:
      return a / b;
    case Kind.remainder:
      return a % b;
    case Kind.shiftLeft:
      return a << b;
    case Kind.shiftRight:
      return a >> b;
    case Kind.shiftRightSigned:
      return BigInt.asIntN(64, a) >> b;
    case Kind.isZero:
      return a === 0n ? 1n : 0n;
    case Kind.equal:
      return a === b ? 1n : 0n;
    case Kind.different:
      return a === b ? 0n : 1n;
    case Kind.less:
      return a < b ? 1n : 0n;
    default:
      return BigInt(a.toString(2).replaceAll('0', '').length);
  }
}

/** No operand but perhaps the left one is constant. */
function withItself(terms: Terms, kind: number, x: Term, y: Term, a: bigint | null): Term | null {
  if (a === 0n && [Kind.shiftLeft, Kind.shiftRight, Kind.shiftRightSigned].some((shift) => shift === kind)) return x;
  if (x !== y) return null;
  if (kind === Kind.and || kind === Kind.or) return x;
  if (kind === Kind.xor || kind === Kind.subtract || kind === Kind.different || kind === Kind.less) return terms.zero;
  return kind === Kind.equal ? terms.constant(1n) : null;
}

function withConstant(terms: Terms, kind: number, x: Term, y: Term, value: bigint): Term | null {
  const full = lowOnes(terms.sizes[x]);
  switch (kind) {
    case Kind.and:
      if ((value & full) === full) return x;
      return (value & full) === 0n ? terms.zero : joined(terms, kind, x, (inner) => inner & value);
    case Kind.or:
      return value === 0n ? x : null;
    case Kind.xor:
      return value === 0n ? x : joined(terms, kind, x, (inner) => inner ^ value);
    case Kind.add:
    case Kind.subtract:
      return value === 0n ? x : null;
    case Kind.multiply:
      if (value === 0n) return terms.zero;
      return value === 1n ? x : null;
    case Kind.divide:
      return value === 1n ? x : null;
    case Kind.remainder:
      return value > full ? x : null;
    case Kind.shiftLeft:
      return value === 0n ? x : null;
    case Kind.shiftRight:
      return shifted(terms, x, value);
    case Kind.shiftRightSigned:
      return value === 0n ? x : null;
    default:
      return tested(terms, kind, x, y, value, full);
  }
}

/** Two constants one after the other become one. */
function joined(terms: Terms, kind: number, x: Term, join: (inner: bigint) => bigint): Term | null {
  if (terms.kinds[x] !== kind) return null;
  const inner = terms.valueOf(terms.y[x] as Term);
  return inner === null ? null : terms.make(kind, terms.x[x] as Term, terms.constant(join(inner)));
}

function shifted(terms: Terms, x: Term, by: bigint): Term | null {
  if (by === 0n) return x;
  if (BigInt(terms.sizes[x]) <= by) return terms.zero;
  const inner = terms.kinds[x] === Kind.shiftRight ? terms.valueOf(terms.y[x] as Term) : null;
  return inner === null ? null : terms.make(Kind.shiftRight, terms.x[x] as Term, terms.constant(inner + by));
}

function tested(terms: Terms, kind: number, x: Term, y: Term, value: bigint, full: bigint): Term | null {
  const isBit = terms.sizes[x] <= 1;
  switch (kind) {
    case Kind.equal:
      if (value > full) return terms.zero;
      if (value === 0n) return terms.make(Kind.isZero, x);
      return isBit ? x : null;
    case Kind.different:
      if (value > full) return terms.constant(1n);
      if (!isBit) return null;
      return value === 0n ? x : terms.make(Kind.xor, x, y);
    case Kind.less:
      if (value > full) return terms.constant(1n);
      if (value === 0n) return terms.zero;
      return value === 1n ? terms.make(Kind.isZero, x) : null;
    default:
      return null;
  }
}

function simplifiedIsZero(terms: Terms, x: Term): Term | null {
  return terms.sizes[x] === 1 ? terms.make(Kind.xor, x, terms.constant(1n)) : null;
}

function simplifiedChoice(terms: Terms, value: bigint | null, x: Term, y: Term, z: Term): Term | null {
  if (value !== null) return value === 0n ? z : y;
  if (y === z) return y;
  if (terms.sizes[x] > 1) return null;
  const [whenTrue, whenNot] = [terms.valueOf(y), terms.valueOf(z)];
  if (whenTrue === 1n && whenNot === 0n) return x;
  if (whenTrue === 0n && whenNot === 1n) return terms.make(Kind.xor, x, terms.constant(1n));
  if (whenNot === 0n && terms.sizes[y] === 1) return terms.make(Kind.and, x, y);
  const isInverted = terms.kinds[x] === Kind.xor && terms.valueOf(terms.y[x] as Term) === 1n;
  return isInverted ? terms.make(Kind.choose, terms.x[x] as Term, z, y) : null;
}

export function lowOnes(size: number): bigint {
  return (1n << BigInt(size)) - 1n;
}
