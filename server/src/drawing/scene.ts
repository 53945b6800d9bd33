// What is looked up again and again while drawing, worked out once per preview: who stands where, and what belongs to a
// trace. Holds no fact that the preview does not.

import type { PreviewData, PreviewGlitch, PreviewReading, PreviewTrace } from '../report/preview-data';
import type { TimeSpan } from './columns';
import { type Timeline, timelineOf } from './timeline';

export interface Scene {
  readonly data: PreviewData;
  /** Index of the trace of each name. */
  readonly traceNamed: ReadonlyMap<string, number>;
  /** By group: its traces, in the order they are drawn. */
  readonly members: readonly (readonly number[])[];
  /** By trace: when it changes. */
  readonly timelines: readonly Timeline[];
  /** By trace: its glitches in time order. */
  readonly glitches: readonly (readonly PreviewGlitch[])[];
  /** By trace: when each of its glitches is marked. */
  readonly glitchSpans: readonly (readonly GlitchSpan[])[];
  /** By trace: the instants at which its value comes into doubt. */
  readonly doubts: readonly (readonly TimeSpan[])[];
  /** By trace: the readings drawn after it. */
  readonly readings: readonly (readonly number[])[];
  /** By trace: the reading that is the value of this very vector; null where none is. */
  readonly ownReading: readonly (number | null)[];
  /** By trace: how it would run if what is asked were so; null where as it does. */
  readonly otherwise: readonly (Otherwise | null)[];
  /** Steps of indentation of the deepest name. */
  readonly deepest: number;
}

/** A trace of a what-if, as it is drawn, and when it changes. */
export interface Otherwise {
  readonly trace: PreviewTrace;
  readonly timeline: Timeline;
}

/** A decode has its pulses one after another, but two verdicts on it may name the same one. */
export interface GlitchSpan extends TimeSpan {
  readonly glitch: PreviewGlitch;
}

export function sceneOf(data: PreviewData): Scene {
  const { glitches, groups, readings, traces } = data;
  const traceNamed = new Map<string, number>();
  for (const [index, { name }] of traces.entries()) if (!traceNamed.has(name)) traceNamed.set(name, index);
  const vectors = readings.map((reading) => vectorOf(data, traceNamed, reading));
  const ownReading: (number | null)[] = traces.map(() => null);
  for (const [index, vector] of vectors.entries()) if (vector !== null) ownReading[vector] = index;
  const own = gather(traces.length, glitches, ({ trace }) => trace).map((all) => all.map((index) => glitches[index]));
  return {
    data,
    traceNamed,
    members: gather(groups.length, traces, ({ group }) => group),
    timelines: traces.map(({ changes }) => timelineOf(changes.at)),
    glitches: own,
    glitchSpans: own.map(spansOf),
    doubts: traces.map(({ doubts }) => doubts.map(({ at }) => ({ from: at, to: at }))),
    readings: gather(traces.length, readings, ({ after }) => after).map((own) =>
      own.filter((index) => vectors[index] === null),
    ),
    ownReading,
    otherwise: otherwiseOf(data),
    deepest: traces.reduce((most, trace) => Math.max(most, depthOf(trace)), 1),
  };
}

function otherwiseOf({ traces, whatIf }: PreviewData): readonly (Otherwise | null)[] {
  const found: (Otherwise | null)[] = traces.map(() => null);
  for (const { changes, start, trace } of whatIf?.traces ?? []) {
    const varied = { ...traces[trace], start, changes: { ...changes, link: [] }, held: [], settling: [], doubts: [] };
    found[trace] = { trace: varied, timeline: timelineOf(changes.at) };
  }
  return found;
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

/** Neither their begin nor their end ever goes back. */
function spansOf(glitches: readonly PreviewGlitch[]): readonly GlitchSpan[] {
  let latest = 0;
  return glitches.map((glitch) => {
    latest = Math.max(latest, glitch.until);
    return { from: glitch.at, to: latest, glitch };
  });
}

/** For each of `count` places the indices of the items that belong to it. */
function gather<T>(count: number, items: readonly T[], placeOf: (item: T) => number): readonly (readonly number[])[] {
  const places: number[][] = Array.from({ length: count }, () => []);
  for (const [index, item] of items.entries()) places[placeOf(item)].push(index);
  return places;
}
