// What a person looks at: the window of time, the part of the rows, what is folded, what is in focus. Everything the
// drawing needs to know beside the data, so that the same view gives the same picture on any surface.

import type { PreviewData } from '../report/preview-data';
import type { TimeWindow } from './columns';

export type Radix = 'binary' | 'decimal' | 'hexadecimal';

export interface View {
  /** Pixels; rows below `height` are not drawn. */
  readonly width: number;
  readonly height: number;
  /** Pixels by which the rows are pushed up; the time axis stays. */
  readonly scroll: number;
  /** Window of time, ps. */
  readonly from: number;
  readonly to: number;
  /** Vectors (indices of traces) that are unfolded into their bits. */
  readonly unfolded: ReadonlySet<number>;
  readonly radix: Radix;
  readonly focus: Focus | null;
}

export interface Focus {
  /** Index of the trace. */
  readonly trace: number;
  /** Index of its change, -1 for its start. */
  readonly change: number;
}

/** Vectors this narrow are shown bit by bit at first, as long as the page keeps to this many rows. */
const narrowVector = 8;
const fewTraces = 24;

/** The whole run: what a page opens with. */
export function openingView(data: PreviewData, size: { readonly width: number; readonly height: number }): View {
  const { end, traces } = data;
  const narrow = traces.flatMap(({ width }, index) => (width > 1 && width <= narrowVector ? [index] : []));
  const unfolded = new Set(traces.length <= fewTraces ? narrow : []);
  return { ...size, scroll: 0, from: 0, to: Math.max(1, end), unfolded, radix: 'decimal', focus: null };
}

/** The whole run and every row, as a handout shows them. */
export function handoutView(data: PreviewData): View {
  return openingView(data, { width: 1200, height: Number.POSITIVE_INFINITY });
}

/** Left of the waves: names with their indentation; right of them: a few words per trace; above: the time axis. */
export const margins = { left: 190, right: 150, top: 30 } as const;

/** Pixels of the time axis. */
export function plotWidth(view: View): number {
  return Math.max(1, view.width - margins.left - margins.right);
}

export function timeWindow(view: View): TimeWindow {
  return { from: view.from, to: view.to, columns: Math.ceil(plotWidth(view)) };
}

export function xOf(view: View, time: number): number {
  return margins.left + ((time - view.from) / (view.to - view.from)) * plotWidth(view);
}

export function timeAt(view: View, x: number): number {
  return view.from + ((x - margins.left) / plotWidth(view)) * (view.to - view.from);
}

export function isInWindow(view: View, time: number): boolean {
  return time >= view.from && time <= view.to;
}
