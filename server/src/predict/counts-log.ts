// A list of readings that may be very long: those looked at one by one, and between them stretches of equal steps.
// Readings are numbered from 0.

import type { Reading } from './counts-entry';
import type { SequenceStep } from './sequence';

export interface ReadingLog {
  readonly length: number;
  /** Whether every reading was looked at by itself. */
  readonly isPlain: boolean;
  add(reading: Reading): void;
  /** Continues from the last reading: `count` more, each by `step` on. A text repeats. */
  addStretch(step: bigint, count: number): void;
  at(index: number): Reading;
  slice(from: number, until: number): Reading[];
  /** The steps between the readings from … until - 1, in order; null where one of them is unknown. */
  stepsBetween(from: number, until: number): SequenceStep[] | null;
  /** The earliest start from which the list repeats with `period`, if it does from `start` on. */
  earliestRepeat(start: number, period: number): number;
}

/** Either a list, or `first`, `first + step`, …. */
interface Part {
  readonly at: number;
  readonly list: Reading[] | null;
  readonly first: Reading;
  readonly step: bigint;
  count: number;
}

export function createReadingLog(start: Reading): ReadingLog {
  const parts: Part[] = [{ at: 0, list: [start], first: start, step: 0n, count: 1 }];
  let length = 1;
  const partAt = (index: number): Part => parts[indexOfPart(parts, index)];
  const at = (index: number): Reading => readingIn(partAt(index), index);
  return {
    get length() {
      return length;
    },
    get isPlain() {
      return parts.length === 1;
    },
    add(reading) {
      const last = parts[parts.length - 1];
      if (last.list === null) parts.push({ at: length, list: [reading], first: reading, step: 0n, count: 1 });
      else {
        last.list.push(reading);
        last.count += 1;
      }
      length += 1;
    },
    addStretch(step, count) {
      const last = at(length - 1);
      parts.push({ at: length, list: null, first: typeof last === 'string' ? last : last + step, step, count });
      length += count;
    },
    at,
    slice: (from, until) => Array.from({ length: until - from }, (_, index) => at(from + index)),
    stepsBetween: (from, until) => stepsOf(partAt, from, until),
    earliestRepeat(start, period) {
      let index = start;
      while (index > 0 && at(index - 1) === at(index - 1 + period)) {
        const [early, late] = [partAt(index - 1), partAt(index - 1 + period)];
        const isAlike = early.list === null && late.list === null && early.step === late.step;
        index -= 1 + (isAlike ? Math.min(index - 1 - early.at, index - 1 + period - late.at) : 0);
      }
      return index;
    },
  };
}

function stepsOf(partAt: (index: number) => Part, from: number, until: number): SequenceStep[] | null {
  const steps: SequenceStep[] = [];
  for (let index = from; index < until - 1; ) {
    const part = partAt(index);
    const inside = part.list === null ? Math.min(part.at + part.count, until) - 1 - index : 0;
    if (inside > 0) steps.push({ step: part.step, count: inside });
    index += inside;
    if (index === until - 1) break;
    const [left, right] = [readingIn(partAt(index), index), readingIn(partAt(index + 1), index + 1)];
    if (typeof left === 'string' || typeof right === 'string') return null;
    steps.push({ step: right - left, count: 1 });
    index += 1;
  }
  return steps;
}

function readingIn({ at, list, first, step }: Part, index: number): Reading {
  if (list !== null) return list[index - at];
  return typeof first === 'string' ? first : first + step * BigInt(index - at);
}

/** The last part that begins at or before the index. */
function indexOfPart(parts: readonly Part[], index: number): number {
  let low = 0;
  let high = parts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (parts[middle].at <= index) low = middle;
    else high = middle - 1;
  }
  return low;
}
