// Tables of one unit for use inside another one's module: the same tables, with the number of their own unit in every
// place, so that what is made from them, and what is said of them, stands where it is written.

interface Placed {
  start?: unknown;
  end?: unknown;
  unit?: number;
}

type Node = Placed & Record<string, unknown>;

/** A copy. Parts that stand in the table twice stand in the copy twice, as one. */
export function withUnit<Table extends object>(table: Table, unit: number): Table {
  const copies = new Map<object, Node>();
  const pending: { readonly from: Node; readonly to: Node }[] = [];
  const copyOf = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null) return value;
    const known = copies.get(value);
    if (known !== undefined) return known;
    const from = value as Node;
    const to = (Array.isArray(from) ? [] : {}) as unknown as Node;
    copies.set(from, to);
    pending.push({ from, to });
    return to;
  };
  const result = copyOf(table);
  // A list in place of the machine's stack: long sums nest as deep as they are long.
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const { from, to } = next;
    for (const key of Object.keys(from)) to[key] = copyOf(from[key]);
    if (typeof from.start === 'number' && typeof from.end === 'number') to.unit = unit;
  }
  return result as Table;
}
