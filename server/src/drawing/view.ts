// What a person looks at: the window of time, the part of the rows, what is folded, what is in focus. Everything the
// drawing needs to know beside the data, so that the same view gives the same picture on any surface.

import type { PreviewData } from '../report/preview-data';
import type { TimeWindow } from './columns';
import { type Breadth, marginsOf, wordRoom } from './margins';

export type Radix = 'binary' | 'decimal' | 'hexadecimal';

export interface View extends Breadth {
  /** Pixels; rows below are not drawn. */
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
  const seen = { from: 0, to: Math.max(1, end), scroll: 0 };
  return { ...size, ...seen, words: wordRoom(data), unfolded, radix: 'decimal', focus: null };
}

/** The whole run and every row, as a handout shows them. */
export function handoutView(data: PreviewData): View {
  return openingView(data, { width: 1200, height: Number.POSITIVE_INFINITY });
}

/** px of the time axis, above the rows. */
export const axisHeight = 30;

/** px of the waves from left to right. */
export function plotWidth(view: View): number {
  const { left, right } = marginsOf(view);
  return Math.max(1, view.width - left - right);
}

export function timeWindow(view: View): TimeWindow {
  return { from: view.from, to: view.to, columns: Math.ceil(plotWidth(view)) };
}

export function xOf(view: View, time: number): number {
  return marginsOf(view).left + ((time - view.from) / (view.to - view.from)) * plotWidth(view);
}

export function timeAt(view: View, x: number): number {
  return view.from + ((x - marginsOf(view).left) / plotWidth(view)) * (view.to - view.from);
}

export function isInWindow(view: View, time: number): boolean {
  return time >= view.from && time <= view.to;
}
