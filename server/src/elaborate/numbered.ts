// A list in which equal entries get one number.

export interface Numbered<Entry> {
  readonly entries: Entry[];
  readonly indices: Map<string, number>;
}

export function createNumbered<Entry>(): Numbered<Entry> {
  return { entries: [], indices: new Map() };
}

export function numberOf<Entry>({ indices, entries }: Numbered<Entry>, entry: Entry): number {
  const key = JSON.stringify(entry);
  const known = indices.get(key);
  if (known !== undefined) return known;
  indices.set(key, entries.length);
  return entries.push(entry) - 1;
}
