// What a person looks at: the window of time, what is folded, what is in focus. Everything the drawing needs to know
// beside the data, so that the same view gives the same picture on any surface.

import type { PreviewData } from '../report/preview-data';

export type Radix = 'binary' | 'decimal' | 'hexadecimal';

export interface View {
  /** Pixels. */
  readonly width: number;
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

/** The whole run as a handout shows it: vectors as values, nothing in focus. */
export function handoutView(data: PreviewData): View {
  return { width: 1200, from: 0, to: Math.max(1, data.end), unfolded: new Set(), radix: 'decimal', focus: null };
}

/** Left of the waves: names with their indentation; right of them: a few words per trace. */
export const margins = { left: 190, right: 150, top: 30 } as const;

/** Pixels of the time axis. */
export function plotWidth(view: View): number {
  return Math.max(1, view.width - margins.left - margins.right);
}

export function xOf(view: View, time: number): number {
  return margins.left + ((time - view.from) / (view.to - view.from)) * plotWidth(view);
}

export function timeAt(view: View, x: number): number {
  return view.from + ((x - margins.left) / plotWidth(view)) * (view.to - view.from);
}
