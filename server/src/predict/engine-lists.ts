// Lists of numbers by number, packed into two arrays, built by counting first.

/** List n: items[first[n]] … items[first[n + 1] - 1]. */
export interface Lists {
  readonly first: Uint32Array;
  readonly items: Uint32Array;
}

/** `visit` is run twice, and must give the same (list, item) pairs in the same order both times. */
export function packLists(count: number, visit: (add: (list: number, item: number) => void) => void): Lists {
  const first = new Uint32Array(count + 1);
  visit((list) => {
    first[list + 1]++;
  });
  for (let list = 0; list < count; list++) first[list + 1] += first[list];
  const items = new Uint32Array(first[count]);
  const next = first.slice();
  visit((list, item) => {
    items[next[list]++] = item;
  });
  return { first, items };
}

/** The operands of cell `index` in columns with `first`, `arity` and `pool`. */
export function listOf(
  columns: { readonly first: Uint32Array; readonly arity: Uint32Array; readonly pool: Uint32Array },
  index: number,
): Uint32Array {
  return columns.pool.subarray(columns.first[index], columns.first[index] + columns.arity[index]);
}
