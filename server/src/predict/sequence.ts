// Names a sequence by a property proved over its full period: one number after the other, one bit at a time, a
// rotation, a rotation with its end inverted, a linear feedback shift. What proves none of them is `other`.

import type { Reading } from './counts-entry';
import type { SequenceKind } from './prediction';
import { linearShiftOf } from './sequence-linear';

export interface NamedSequence {
  readonly kind: SequenceKind;
  /** How many different values follow each other; null where the sequence does not repeat or stands still. */
  readonly modulus: number | null;
  /** Of a linear feedback shift register: exponents of its feedback polynomial, largest first; else empty. */
  readonly polynomial: readonly number[];
}

/** `cycle`: the readings of one period, in order; one that is held counts once, one with unknown bits proves nothing. */
export function* nameSequence(cycle: readonly Reading[], width: number): Generator<void, NamedSequence> {
  if (cycle.some((value) => typeof value === 'string')) return { ...unnamed, modulus: null };
  const values = withoutHolds(cycle as readonly bigint[]);
  const distinct = new Set(values).size;
  if (distinct < 2) return { ...unnamed, modulus: null };
  if (distinct !== values.length) return { ...unnamed, modulus: distinct };
  const modulus = values.length;
  for (const [kind, holds] of simpleKinds) {
    if (holds(values, width)) return { kind, modulus, polynomial: [] };
    yield;
  }
  const polynomial = yield* linearShiftOf(values, width);
  return polynomial === null ? { ...unnamed, modulus } : { kind: 'lfsr', modulus, polynomial };
}

const unnamed = { kind: 'other', polynomial: [] } as const;

/** In this order: a short ring or twisted ring may also be read as a count or a code. */
const simpleKinds: readonly (readonly [SequenceKind, (values: readonly bigint[], width: number) => boolean])[] = [
  ['ring', isRing],
  ['up', isUp],
  ['down', (values) => isUp([...values].reverse())],
  ['gray', isReflectedGray],
  ['johnson', isJohnson],
  ['gray', isGray],
];

/**
 * Names a sequence that is too long to list by the steps between its readings, the one from the last back to the first
 * included: one more each time or one less, but for the way back. Null steps: some reading was unknown.
 */
export function nameSteps(steps: readonly SequenceStep[] | null): NamedSequence {
  const moving = (steps ?? []).filter(({ step }) => step !== 0n);
  const modulus = moving.reduce((sum, { count }) => sum + count, 0);
  const isCount = (one: bigint) => {
    const others = moving.filter(({ step }) => step !== one);
    return others.length === 1 && others[0].count === 1 && others[0].step === one * (1n - BigInt(modulus));
  };
  if (isCount(1n)) return { kind: 'up', modulus, polynomial: [] };
  return isCount(-1n) ? { kind: 'down', modulus, polynomial: [] } : { ...unnamed, modulus: null };
}

export interface SequenceStep {
  readonly step: bigint;
  /** How many times in a row. */
  readonly count: number;
}

/** The cycle with each stretch of equal neighbours, across the end too, as one. */
export function withoutHolds(cycle: readonly bigint[]): bigint[] {
  const changes = cycle.filter((value, index) => value !== cycle[(index + cycle.length - 1) % cycle.length]);
  return changes.length > 0 ? rotatedTo(changes, cycle[0]) : cycle.slice(0, 1);
}

/** A cycle that began in the middle of a hold begins with the value that was held. */
function rotatedTo(values: bigint[], first: bigint): bigint[] {
  return values[0] === first ? values : [values[values.length - 1], ...values.slice(0, -1)];
}

/** Each one more than the one before, but for one step from the largest back to the smallest. */
function isUp(values: readonly bigint[]): boolean {
  let wraps = 0;
  for (let index = 0; index < values.length; index++) {
    const step = values[(index + 1) % values.length] - values[index];
    if (step === 1n) continue;
    if (step !== 1n - BigInt(values.length)) return false;
    wraps += 1;
  }
  return wraps === 1;
}

/** Always turned by one place, the same way round. Not all 0, not all 1: those stand still. */
function isRing(values: readonly bigint[], width: number): boolean {
  return everyStep(values, (from) => turnedLeft(from, width)) || everyStep(values, (from) => turnedRight(from, width));
}

/** Turned by one place with the bit that goes round inverted. Mano and Ciletti, Digital Design, 6.5 (from memory). */
function isJohnson(values: readonly bigint[], width: number): boolean {
  const top = 1n << BigInt(width - 1);
  return (
    everyStep(values, (from) => turnedLeft(from, width) ^ 1n) ||
    everyStep(values, (from) => turnedRight(from, width) ^ top)
  );
}

/** One bit changes at each step, from the last value to the first too. */
function isGray(values: readonly bigint[]): boolean {
  return values.every((value, index) => isPowerOfTwo(value ^ values[(index + 1) % values.length]));
}

/** The reflected binary code itself (F. Gray, US patent 2 632 058), upward: all codes of the width, in its order. */
function isReflectedGray(values: readonly bigint[], width: number): boolean {
  if (BigInt(values.length) !== 1n << BigInt(width)) return false;
  return isUp(values.map(fromGray));
}

function fromGray(code: bigint): bigint {
  let value = code;
  for (let rest = code >> 1n; rest !== 0n; rest >>= 1n) value ^= rest;
  return value;
}

function everyStep(values: readonly bigint[], next: (from: bigint) => bigint): boolean {
  return values.every((value, index) => next(value) === values[(index + 1) % values.length]);
}

function turnedLeft(value: bigint, width: number): bigint {
  const top = BigInt(width - 1);
  return ((value << 1n) & ((1n << BigInt(width)) - 1n)) | (value >> top);
}

function turnedRight(value: bigint, width: number): bigint {
  return (value >> 1n) | ((value & 1n) << BigInt(width - 1));
}

function isPowerOfTwo(value: bigint): boolean {
  return value > 0n && (value & (value - 1n)) === 0n;
}
