// Reduces what lies along time to what pixels can show. Everything is sorted by time, so what falls into a pixel column
// is found by binary search: the cost follows the width of the picture, not the length of the run.

/** The part of time that is drawn, ps, and the number of pixel columns it is drawn on. */
export interface TimeWindow {
  readonly from: number;
  readonly to: number;
  readonly columns: number;
}

/** A stretch of time drawn as one thing: a held value, or a column in which the value changes more than once. */
export interface Stretch {
  /** ps */
  readonly from: number;
  readonly to: number;
  /** Index of the change that gave the value held, and in a busy column of the last one in it; -1 for the start. */
  readonly change: number;
  /** More changes fall into it than a column can show. */
  readonly busy: boolean;
}

/**
 * Stretches without gaps over [from, to), at most three per column: what is held before a change, and the column itself.
 * `at`: strictly increasing ps.
 */
export function stretchesOf(at: ArrayLike<number>, window: TimeWindow): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let change = lastAtOrBefore(at, window.from);
  let start = window.from;
  const holdUntil = (end: number) => {
    if (end > start) stretches.push({ from: start, to: end, change, busy: false });
    start = end;
  };
  while (change + 1 < at.length && at[change + 1] < window.to) {
    const next = at[change + 1];
    const end = columnEnd(window, next);
    const last = lastWhere(at.length, (index) => at[index] < end);
    holdUntil(next);
    if (last > change + 1) {
      stretches.push({ from: next, to: end, change: last, busy: true });
      start = end;
    }
    change = last;
  }
  holdUntil(window.to);
  return stretches;
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
    const last = Math.max(
      index,
      lastWhere(spans.length, (each) => spans[each].from < end),
    );
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

/** Where the pixel column of an instant ends: after it for certain, whatever the division rounds to. */
function columnEnd({ columns, from, to }: TimeWindow, instant: number): number {
  const step = (to - from) / columns;
  const column = Math.floor((instant - from) / step);
  const end = from + (column + 1) * step;
  return Math.min(end > instant ? end : from + (column + 2) * step, to);
}
