// Reduces a trace to what its pixels can show. Changes are sorted, so the ones of a pixel column are found by binary
// search: the cost follows the width of the picture, not the length of the run.

/** A stretch of time drawn as one thing: a held value, or a column in which the value changes more than once. */
export interface Stretch {
  /** ps */
  readonly from: number;
  readonly to: number;
  /** Index of the change that gave the value held; -1 for the start. */
  readonly change: number;
  /** More changes than one pixel can show fall into it; `change` is then the last of them, `first` the first. */
  readonly busy: boolean;
  readonly first: number;
}

/** Stretches without gaps over [from, to), at most about twice as many as `columns`. `at`: strictly increasing ps. */
export function stretchesOf(
  at: ArrayLike<number>,
  window: { readonly from: number; readonly to: number; readonly columns: number },
): readonly Stretch[] {
  const { from, to, columns } = window;
  const step = (to - from) / columns;
  const stretches: Stretch[] = [];
  let change = lastAtOrBefore(at, from);
  let start = from;
  const hold = (end: number) => {
    if (end > start) stretches.push({ from: start, to: end, change, busy: false, first: change });
  };
  while (change + 1 < at.length && at[change + 1] < to) {
    const next = at[change + 1];
    const column = from + Math.floor((next - from) / step) * step;
    const end = Math.min(column + step, to);
    const last = lastBefore(at, end);
    hold(next);
    if (last > change + 1) {
      stretches.push({ from: next, to: end, change: last, busy: true, first: change + 1 });
      start = end;
    } else start = next;
    change = last;
  }
  hold(to);
  return stretches;
}

/** Index of the last change at or before the instant; -1 where there is none. */
export function lastAtOrBefore(at: ArrayLike<number>, instant: number): number {
  return search(at, (time) => time <= instant);
}

function lastBefore(at: ArrayLike<number>, instant: number): number {
  return search(at, (time) => time < instant);
}

function search(at: ArrayLike<number>, holds: (time: number) => boolean): number {
  let low = 0;
  let high = at.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (holds(at[middle])) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
