// The instants at which a trace changes, with what it takes to step over a crowd of them at once: as long as no three
// changes in a row span more than a pixel column, every column holds at least two. Made once per preview, so that a
// picture costs what its pixels cost, however many changes there are.

export interface Timeline {
  /** Strictly increasing ps. */
  readonly at: ArrayLike<number>;
  /**
   * Binary tree over blocks of changes, its root at 1 and its leaves in the second half: the longest time, ps, from any
   * change of the block to the next but one.
   */
  readonly longest: Float64Array;
}

/** Changes to a block: few enough to walk through, many enough that the tree is small beside them. */
const block = 64;

export function timelineOf(at: ArrayLike<number>): Timeline {
  const leaves = 2 ** Math.ceil(Math.log2(Math.max(1, at.length / block)));
  const longest = new Float64Array(2 * leaves);
  for (let index = 0; index + 2 < at.length; index += 1) {
    const leaf = leaves + Math.floor(index / block);
    longest[leaf] = Math.max(longest[leaf], at[index + 2] - at[index]);
  }
  for (let node = leaves - 1; node > 0; node -= 1) {
    longest[node] = Math.max(longest[2 * node], longest[2 * node + 1]);
  }
  return { at, longest };
}

/**
 * The first change from `start` on from which the next but one is more than `limit` ps away; the last but one of all
 * where no such change is left. Needs two changes or more from `start` on.
 */
export function endOfCrowd({ at, longest }: Timeline, start: number, limit: number): number {
  const length = at.length - 2;
  const border = Math.min(length, (Math.floor(start / block) + 1) * block);
  const near = walk(at, { start, end: border }, limit);
  if (near < border || border === length) return near;
  const leaves = longest.length / 2;
  const leaf = firstLeaf(longest, leaves + border / block, limit);
  if (leaf === null) return length;
  const first = (leaf - leaves) * block;
  return walk(at, { start: first, end: Math.min(length, first + block) }, limit);
}

function walk(at: ArrayLike<number>, { start, end }: { readonly start: number; readonly end: number }, limit: number) {
  let index = start;
  while (index < end && at[index + 2] - at[index] <= limit) index += 1;
  return index;
}

/** The first leaf from the given one on that exceeds the limit; null where none does. */
function firstLeaf(longest: Float64Array, leaf: number, limit: number): number | null {
  let node = leaf;
  while (longest[node] <= limit) {
    // Up past all whose right end this is, then to the right; past the root nothing is left.
    while (node % 2 === 1) node = (node - 1) / 2;
    if (node === 0) return null;
    node += 1;
  }
  while (node < longest.length / 2) node = 2 * node + (longest[2 * node] > limit ? 0 : 1);
  return node;
}
