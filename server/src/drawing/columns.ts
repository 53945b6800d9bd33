// Reduces what lies along time to what pixels can show. Everything is sorted by time, so what falls into a pixel column
// is found by binary search: the cost follows the width of the picture, not the length of the run.

import { endOfCrowd, type Timeline } from './timeline';

/** The part of time that is drawn, ps, and the number of pixel columns it is drawn on. */
export interface TimeWindow {
  readonly from: number;
  readonly to: number;
  readonly columns: number;
}

/** A stretch of time drawn as one thing: a held value, or columns side by side in each of which it changes repeatedly. */
export interface Stretch {
  /** ps */
  readonly from: number;
  readonly to: number;
  /** Index of the change that gave the value held, and in a busy stretch of the last one in it; -1 for the start. */
  readonly change: number;
  /** More changes fall into each of its columns than a column can show. */
  readonly busy: boolean;
}

/**
 * Stretches without gaps over [from, to), at most three per column: what is held before a change, and the column itself.
 * A busy one begins at its first change and ends where the column of its last one does.
 */
export function stretchesOf(timeline: Timeline, window: TimeWindow): readonly Stretch[] {
  const { at } = timeline;
  const stretches: Stretch[] = [];
  let change = lastAtOrBefore(at, window.from);
  let start = window.from;
  const holdUntil = (end: number) => {
    if (end > start) stretches.push({ from: start, to: end, change, busy: false });
    start = end;
  };
  while (change + 1 < at.length && at[change + 1] < window.to) {
    const first = change + 1;
    const { end, last } = crowdFrom(timeline, first, window);
    holdUntil(at[first]);
    if (last > first) {
      stretches.push({ from: at[first], to: end, change: last, busy: true });
      start = end;
    }
    change = last;
  }
  holdUntil(window.to);
  return stretches;
}

/** The column of a change, or, where it holds several, that and the columns after it as long as they do. */
function crowdFrom(timeline: Timeline, first: number, window: TimeWindow) {
  const { at } = timeline;
  const step = columnStep(window);
  // Less than a column by more than dividing and multiplying can round, so that a column is never called full wrongly.
  const limit = step * (1 - 2 ** -30) - window.to * 2 ** -50;
  let end = columnEnd(window, at[first]);
  let last = lastBefore(at, end, first);
  if (last === first) return { end, last };
  while (end < window.to && last + 2 < at.length) {
    // Of the columns that begin before the crowd ends, each holds two changes: only the one after them is looked into.
    const crowded = endOfCrowd(timeline, last, limit);
    const next = Math.max(crowded, last + 1);
    const nextEnd = columnEnd(window, at[next]);
    const nextLast = lastBefore(at, nextEnd, last);
    const isFull = nextLast > next && nextEnd < end + 1.5 * step;
    if (crowded === last && !isFull) break;
    end = nextEnd;
    last = nextLast;
  }
  return { end, last };
}

/** A span [from, to] of time, ps. */
export interface TimeSpan {
  readonly from: number;
  readonly to: number;
}

/** Spans seen through a window: at most one that begins in each column, which then stands for all that begin there. */
export interface SeenSpan<S> {
  readonly from: number;
  readonly to: number;
  /** The first of them, and how many more begin in the same column. */
  readonly span: S;
  readonly more: number;
}

/** `spans`: in order; neither their begin nor their end ever goes back. */
export function spansIn<S extends TimeSpan>(spans: readonly S[], window: TimeWindow): readonly SeenSpan<S>[] {
  const seen: SeenSpan<S>[] = [];
  let index = lastWhere(spans.length, (each) => spans[each].to < window.from) + 1;
  while (index < spans.length && spans[index].from < window.to) {
    const end = columnEnd(window, Math.max(spans[index].from, window.from));
    const last = lastWhereFrom(index, spans.length, (each) => spans[each].from < end);
    const from = Math.max(spans[index].from, window.from);
    const to = Math.min(spans[last].to, window.to);
    seen.push({ from, to, span: spans[index], more: last - index });
    index = last + 1;
  }
  return seen;
}

/** Index of the last change at or before the instant; -1 where there is none. */
export function lastAtOrBefore(at: ArrayLike<number>, instant: number): number {
  return lastWhere(at.length, (index) => at[index] <= instant);
}

/** The last index for which `holds`, which is true up to some point and false from there; -1 where none. */
export function lastWhere(length: number, holds: (index: number) => boolean): number {
  let [low, high] = [0, length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (holds(middle)) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The last change before `end`, which the change at `start` is. */
function lastBefore(at: ArrayLike<number>, end: number, start: number): number {
  return lastWhereFrom(start, at.length, (index) => at[index] < end);
}

/** Like `lastWhere`, of indices from `start` on, where it holds: near ones are found soonest. */
function lastWhereFrom(start: number, length: number, holds: (index: number) => boolean): number {
  let stride = 1;
  while (start + stride < length && holds(start + stride)) stride *= 2;
  const low = start + Math.floor(stride / 2);
  return low + 1 + lastWhere(Math.min(start + stride, length) - low - 1, (index) => holds(low + 1 + index));
}

function columnStep({ columns, from, to }: TimeWindow): number {
  return (to - from) / columns;
}

/** Where the pixel column of an instant ends: after it for certain, whatever the division rounds to. */
function columnEnd(window: TimeWindow, instant: number): number {
  const { from, to } = window;
  const step = columnStep(window);
  const column = Math.floor((instant - from) / step);
  const end = from + (column + 1) * step;
  return Math.min(end > instant ? end : from + (column + 2) * step, to);
}
