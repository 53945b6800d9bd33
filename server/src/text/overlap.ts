// How much two versions of a text share at their ends: what an edit has left alone.

export interface Overlap {
  /** Characters from the beginning that are the same. */
  readonly start: number;
  /** Characters before the end that are the same; they and those at the start do not meet in either text. */
  readonly end: number;
}

export function overlapOf(before: string, after: string): Overlap {
  const shorter = Math.min(before.length, after.length);
  const start = longest(shorter, (from, to) => before.slice(from, to) === after.slice(from, to));
  const end = longest(shorter - start, (from, to) => lastOf(before, from, to) === lastOf(after, from, to));
  return { start, end };
}

/** Stretches are compared as a whole, which takes far less time than character by character. */
function longest(most: number, isSame: (from: number, to: number) => boolean): number {
  let same = 0;
  let step = most;
  while (step > 0 && same < most) {
    const to = Math.min(most, same + step);
    if (isSame(same, to)) same = to;
    else step = Math.min(step >> 1, (to - same) >> 1);
  }
  return same;
}

function lastOf(text: string, from: number, to: number): string {
  return text.slice(text.length - to, text.length - from);
}
