// A recognized sequence in words: what it counts, and which readings it passes on the way.

import { listWords } from './words';

export interface Sequence {
  /** Exponents of a feedback polynomial; empty where it has none. */
  readonly polynomial: readonly number[];
  readonly kind: 'up' | 'down' | 'gray' | 'ring' | 'johnson' | 'lfsr' | 'other';
  readonly modulus: number | null;
  readonly period: number | null;
  /** Readings before it repeats. */
  readonly leadIn: readonly string[];
  readonly values: readonly string[];
  readonly steps: readonly Step[];
}

export interface Step {
  readonly from: string;
  readonly to: string;
  readonly passes: readonly { readonly at: number; readonly value: string }[];
}

const kindWords: Readonly<Record<Sequence['kind'], string>> = {
  up: 'counts up',
  down: 'counts down',
  gray: 'counts in Gray code',
  ring: 'shifts round a ring',
  johnson: 'shifts round a ring, inverted once (Johnson)',
  lfsr: 'runs through a linear-feedback sequence',
  other: 'repeats a sequence of its own',
};

/** `counts up, modulo 16`; `repeats a sequence of its own, every 12 edges`. */
export function sequenceWords({ kind, leadIn, modulus, period, polynomial, values }: Sequence): string {
  if (values.some((value) => /^[01z]*x[01xz]*$/.test(value))) return 'cannot be told: some of its bits are unknown';
  if (period === 1) return leadIn.length === 0 ? 'keeps its value' : `comes to rest at ${values[0]}`;
  if (period === null) return kind === 'other' ? 'no repetition found within the limit' : kindWords[kind];
  if ((kind === 'up' || kind === 'down') && modulus !== null) {
    const stops = period === modulus ? '' : `, with stops: ${period} edges to come round`;
    return `${kindWords[kind]}, modulo ${modulus}${stops}`;
  }
  const feedback = polynomial.length === 0 ? '' : ` of ${polynomialWords(polynomial)}`;
  return `${kindWords[kind]}${feedback}, every ${period} edges`;
}

/** `x^7 + x^6 + 1` */
export function polynomialWords(exponents: readonly number[]): string {
  return exponents.map((exponent) => (exponent === 0 ? '1' : exponent === 1 ? 'x' : `x^${exponent}`)).join(' + ');
}

/** `passes 6, 4 and 0 on the way from 7 to 8`; of the step that passes the most, the first; empty where none does. */
export function passesWords({ steps }: Pick<Sequence, 'steps'>): string {
  const worst = steps.reduce<Step | null>(
    (most, step) => (step.passes.length > (most?.passes.length ?? 0) ? step : most),
    null,
  );
  if (worst === null) return '';
  return `passes ${listWords(worst.passes.map(({ value }) => value))} on the way from ${worst.from} to ${worst.to}`;
}
