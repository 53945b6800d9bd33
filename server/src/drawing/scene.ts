// What is looked up again and again while drawing, worked out once per preview: who stands where, and what belongs to a
// trace. Holds no fact that the preview does not.

import type { PreviewData, PreviewGlitch, PreviewReading } from '../report/preview-data';

export interface Scene {
  readonly data: PreviewData;
  /** Index of the trace of each name. */
  readonly traceNamed: ReadonlyMap<string, number>;
  /** By group: its traces, in the order they are drawn. */
  readonly members: readonly (readonly number[])[];
  /** By trace: its glitches in time order. */
  readonly glitches: readonly (readonly PreviewGlitch[])[];
  /** By trace: the readings drawn after it. */
  readonly readings: readonly (readonly number[])[];
  /** By trace: the reading that is the value of this very vector; null where none is. */
  readonly ownReading: readonly (number | null)[];
  /** Steps of indentation of the deepest name. */
  readonly deepest: number;
}

export function sceneOf(data: PreviewData): Scene {
  const { glitches, groups, readings, traces } = data;
  const traceNamed = new Map<string, number>();
  for (const [index, { name }] of traces.entries()) if (!traceNamed.has(name)) traceNamed.set(name, index);
  const vectors = readings.map((reading) => vectorOf(data, traceNamed, reading));
  const ownReading: (number | null)[] = traces.map(() => null);
  for (const [index, vector] of vectors.entries()) if (vector !== null) ownReading[vector] = index;
  return {
    data,
    traceNamed,
    members: gather(groups.length, traces, ({ group }) => group),
    glitches: gather(traces.length, glitches, ({ trace }) => trace).map((own) => own.map((index) => glitches[index])),
    readings: gather(traces.length, readings, ({ after }) => after).map((own) =>
      own.filter((index) => vectors[index] === null),
    ),
    ownReading,
    deepest: traces.reduce((most, trace) => Math.max(most, depthOf(trace)), 1),
  };
}

/** Steps by which a name is indented: its stage, and one more for a bit under its vector. */
export function depthOf({ indent, parent }: { readonly indent: number; readonly parent: number | null }): number {
  return indent + (parent === null ? 0 : 1);
}

/** The vector whose bits, in its own order, the reading reads; null where it reads anything else. */
function vectorOf(
  { traces }: PreviewData,
  traceNamed: ReadonlyMap<string, number>,
  { bits }: PreviewReading,
): number | null {
  const places = bits.map((bit) => traceNamed.get(bit) ?? -1);
  const vector = places[0] >= 0 ? traces[places[0]].parent : null;
  if (vector === null || traces[vector].width !== bits.length) return null;
  return places.every((place, index) => place === places[0] + index && traces[place].parent === vector) ? vector : null;
}

/** For each of `count` places the indices of the items that belong to it. */
function gather<T>(count: number, items: readonly T[], placeOf: (item: T) => number): readonly (readonly number[])[] {
  const places: number[][] = Array.from({ length: count }, () => []);
  for (const [index, item] of items.entries()) places[placeOf(item)].push(index);
  return places;
}
