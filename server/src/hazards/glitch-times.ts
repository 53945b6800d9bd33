// When things can happen relative to one another: a set of instants and the bounds on their differences (definition 21
// of the project: order is decided on differences, not on windows). All bounds are closed under each other, so whether
// one more bound can hold is one look. Times in ps, whole numbers: then every corner of what is possible is whole too.
// Left out: equal delays of one cell used twice in a run are not tied together, so `possible` errs on the safe side.

/** Instants 0 … count − 1; instant 0 is the root edge. `most[i * size + j]`: how far j can lie after i at most. */
export interface Times {
  readonly count: number;
  readonly size: number;
  readonly most: Float64Array;
}

/** The root edge alone. `size`: how many instants there may be in the end. */
export function createTimes(size: number): Times {
  return { count: 1, size, most: new Float64Array(size * size) };
}

/** A further instant, `least` to `most` ps after an earlier one; its number is the old `count`. */
export function follow(times: Times, cause: number, least: number, most: number): Times {
  const { count } = times;
  const next = copyTimes(times, count + 1);
  for (let other = 0; other < count; other++) {
    next.most[other * next.size + count] = mostAfter(next, other, cause) + most;
    next.most[count * next.size + other] = mostAfter(next, cause, other) - least;
  }
  return next;
}

/** How far `second` can lie after `first` at most, ps; negative where it always lies before it. */
export function mostAfter(times: Times, first: number, second: number): number {
  return times.most[first * times.size + second];
}

/** How far `second` lies after `first` at least. */
export function leastAfter(times: Times, first: number, second: number): number {
  return -mostAfter(times, second, first);
}

/** With `second` at least `gap` ps after `first`; null where that cannot be. `gap` may be negative. */
export function apart(times: Times, first: number, second: number, gap = 0): Times | null {
  if (mostAfter(times, first, second) < gap) return null;
  if (leastAfter(times, first, second) >= gap) return times;
  const next = copyTimes(times, times.count);
  const { count, size } = next;
  for (let from = 0; from < count; from++) {
    const toSecond = times.most[from * times.size + second] - gap;
    for (let to = 0; to < count; to++) {
      const through = toSecond + times.most[first * times.size + to];
      if (through < next.most[from * size + to]) next.most[from * size + to] = through;
    }
  }
  return next;
}

/** With `second` at most `gap` ps after `first`; null where that cannot be. */
export function within(times: Times, first: number, second: number, gap: number): Times | null {
  return apart(times, second, first, -gap);
}

/** One run that keeps all bounds: every instant as early as it can be. ps after the root edge. */
export function earliestRun(times: Times): number[] {
  return Array.from({ length: times.count }, (_, instant) => leastAfter(times, 0, instant));
}

function copyTimes(times: Times, count: number): Times {
  if (count <= times.size) return { count, size: times.size, most: times.most.slice() };
  const size = Math.max(count, 2 * times.size);
  const most = new Float64Array(size * size);
  for (let from = 0; from < times.count; from++) {
    most.set(times.most.subarray(from * times.size, from * times.size + times.count), from * size);
  }
  return { count, size, most };
}
