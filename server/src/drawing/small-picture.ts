// One signal over a few periods, small enough for a hover: its clock above it, the axis on top. It is a cutting from the
// whole picture, drawn by the same hands: only what is drawn and when is chosen here.

import type { PreviewData, PreviewTrace } from '../report/preview-data';
import { drawPicture, type Picture } from './picture';
import { sceneOf } from './scene';
import { openingView } from './view';

/** px: no wider than an editor's hover shows without scrolling. */
const width = 440;
/** Rows at most: a hover is no page. */
const mostRows = 6;

/** Null for a signal (full name) that has no trace. */
export function drawSmall(data: PreviewData, signal: string): Picture | null {
  const own = tracesOf(data, signal);
  if (own.length === 0) return null;
  const shown = [...clockOf(data, own[0]), ...own].slice(0, mostRows);
  const cut = cutting(data, shown);
  const view = { ...openingView(cut, { width, height: Number.POSITIVE_INFINITY }), unfolded: new Set<number>() };
  return drawPicture(sceneOf(cut), { ...view, ...windowOf(data, shown, own) });
}

/** Indices of the traces of a signal: one of the whole, or several where its bits are clocked apart. */
export function tracesOf({ traces }: PreviewData, signal: string): readonly number[] {
  return traces.flatMap(({ name, parent }, index) =>
    parent === null && (name === signal || signalOf(name) === signal) ? [index] : [],
  );
}

/** `u.q[3:0]` is of `u.q`. */
function signalOf(name: string): string {
  return name.replace(/\[-?\d+(?::-?\d+)?\]$/, '');
}

/** The trace that clocks another; none where that is not drawn, or is itself what is looked at. */
function clockOf({ traces }: PreviewData, trace: number): readonly number[] {
  const { clock, group } = traces[trace];
  const named = traces.findIndex(({ name }) => name === clock?.signal);
  const root = traces.findIndex((each) => each.kind === 'clock' && each.group === group);
  const found = named >= 0 ? named : root;
  return found < 0 || found === trace ? [] : [found];
}

/** The data with only these traces, in one group and without the steps of their stages, which names need the room of. */
function cutting(data: PreviewData, shown: readonly number[]): PreviewData {
  const group = data.groups[data.traces[shown[0]].group];
  return {
    ...data,
    groups: [group],
    traces: shown.map((index): PreviewTrace => ({ ...data.traces[index], group: 0, indent: 0, parent: null })),
    readings: [],
    glitches: data.glitches
      .filter(({ trace }) => shown.includes(trace))
      .map((glitch) => ({ ...glitch, trace: shown.indexOf(glitch.trace) })),
  };
}

/** In periods of the clock: what is shown at least and at most, and what is left free behind the last change. */
const periods = { least: 8, most: 32, after: 1.5 } as const;
/** How many of its own changes a signal is shown with, where they are not too far apart. */
const ownChanges = 4;

/** Up to its last change and a little more: that is the change whose account stands beside the picture. */
function windowOf(
  { end, traces }: PreviewData,
  shown: readonly number[],
  own: readonly number[],
): { readonly from: number; readonly to: number } {
  const period = periodOf(traces[shown[0]]) ?? end / periods.least;
  const changes = own.flatMap((index) => traces[index].changes.at).sort((left, right) => left - right);
  if (changes.length === 0) return { from: 0, to: Math.max(1, Math.min(end, period * periods.least)) };
  const last = changes[changes.length - 1];
  const wished = last - changes[Math.max(0, changes.length - ownChanges)];
  const length = Math.min(Math.max(wished, period * periods.least), period * periods.most);
  const to = Math.min(end, last + period * periods.after);
  return { from: Math.max(0, Math.floor(to - length - period)), to: Math.max(1, Math.ceil(to)) };
}

/** ps from one rise to the next; null where the trace has not so many changes. */
function periodOf({ changes: { at } }: PreviewTrace): number | null {
  return at.length < 3 ? null : at[2] - at[0];
}
