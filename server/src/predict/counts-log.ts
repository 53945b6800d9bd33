// A list of readings that may be very long: stretches of equal steps are kept as such. Readings are numbered from 0.

import type { Reading } from './counts-entry';

/** Readings `first`, `first + step`, … of which there are `count`; a text is one reading that repeats. */
interface Stretch {
  readonly at: number;
  readonly first: Reading;
  readonly step: bigint;
  readonly count: number;
}

export interface ReadingLog {
  readonly length: number;
  /** Whether every reading was looked at by itself. */
  readonly isPlain: boolean;
  add(reading: Reading): void;
  /** Continues from the last reading: `count` more, each by `step` on. */
  addStretch(step: bigint, count: number): void;
  at(index: number): Reading;
  slice(from: number, until: number): Reading[];
  /** Neighbouring readings of [from, until) that differ by the same step, as (step, how often), in order. */
  stepsBetween(from: number, until: number): { readonly step: bigint; readonly count: number }[] | null;
  /** The earliest start from which the list repeats with `period`, if it does from `start` on. */
  earliestRepeat(start: number, period: number): number;
}

export function createReadingLog(start: Reading): ReadingLog {
  const stretches: Stretch[] = [{ at: 0, first: start, step: 0n, count: 1 }];
  let length = 1;
  let isPlain = true;
  const stretchAt = (index: number): Stretch => stretches[indexOfStretch(stretches, index)];
  const at = (index: number): Reading => readingIn(stretchAt(index), index);
  const push = (first: Reading, step: bigint, count: number): void => {
    stretches.push({ at: length, first, step, count });
    length += count;
  };
  return {
    get length() {
      return length;
    },
    get isPlain() {
      return isPlain;
    },
    add: (reading) => push(reading, 0n, 1),
    addStretch(step, count) {
      const last = at(length - 1);
      isPlain = false;
      push(typeof last === 'string' ? last : last + step, step, count);
    },
    at,
    slice: (from, until) => Array.from({ length: until - from }, (_, index) => at(from + index)),
    stepsBetween(from, until) {
      const steps: { step: bigint; count: number }[] = [];
      for (let index = from; index < until - 1; ) {
        const stretch = stretchAt(index);
        const inside = Math.min(stretch.at + stretch.count, until) - 1 - index;
        if (inside > 0) steps.push({ step: stretch.step, count: inside });
        index += inside;
        if (index === until - 1) break;
        const [left, right] = [at(index), at(index + 1)];
        if (typeof left === 'string' || typeof right === 'string') return null;
        steps.push({ step: right - left, count: 1 });
        index += 1;
      }
      return steps;
    },
    earliestRepeat(start, period) {
      let index = start;
      while (index > 0 && at(index - 1) === at(index - 1 + period)) {
        const [early, late] = [stretchAt(index - 1), stretchAt(index - 1 + period)];
        const shared = early.step === late.step ? Math.min(index - 1 - early.at, index - 1 + period - late.at) : 0;
        index -= 1 + shared;
      }
      return index;
    },
  };
}

function readingIn({ at, first, step }: Stretch, index: number): Reading {
  return typeof first === 'string' ? first : first + step * BigInt(index - at);
}

/** The last stretch that begins at or before the index. */
function indexOfStretch(stretches: readonly Stretch[], index: number): number {
  let low = 0;
  let high = stretches.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (stretches[middle].at <= index) low = middle;
    else high = middle - 1;
  }
  return low;
}
