// From one view to the next: what each key does. Pure, so that the keyboard is tested without a keyboard.

import { lastAtOrBefore } from '../../server/src/drawing/columns';
import { rowsOf } from '../../server/src/drawing/rows';
import type { Focus, View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';

export type Step =
  | 'next-edge'
  | 'previous-edge'
  | 'next-trace'
  | 'previous-trace'
  | 'cause'
  | 'fold'
  | 'zoom-in'
  | 'zoom-out'
  | 'pan-left'
  | 'pan-right'
  | 'fit';

export const stepOfKey: Readonly<Record<string, Step>> = {
  ArrowRight: 'next-edge',
  ArrowLeft: 'previous-edge',
  ArrowDown: 'next-trace',
  ArrowUp: 'previous-trace',
  Enter: 'cause',
  ' ': 'fold',
  '+': 'zoom-in',
  '=': 'zoom-in',
  '-': 'zoom-out',
  PageUp: 'pan-left',
  PageDown: 'pan-right',
  Home: 'fit',
};

export function take(step: Step, data: PreviewData, view: View): View {
  switch (step) {
    case 'next-edge':
      return withFocus(data, view, edgeFrom(data, view, 1));
    case 'previous-edge':
      return withFocus(data, view, edgeFrom(data, view, -1));
    case 'next-trace':
      return withFocus(data, view, traceFrom(data, view, 1));
    case 'previous-trace':
      return withFocus(data, view, traceFrom(data, view, -1));
    case 'cause':
      return toCause(data, view);
    case 'fold':
      return view.focus === null ? view : toggleFold(data, view, view.focus.trace);
    case 'zoom-in':
      return zoom(data, view, 0.5, focusTime(data, view));
    case 'zoom-out':
      return zoom(data, view, 2, focusTime(data, view));
    case 'pan-left':
      return pan(data, view, -0.5);
    case 'pan-right':
      return pan(data, view, 0.5);
    case 'fit':
      return { ...view, from: 0, to: Math.max(1, data.end) };
  }
}

/** Around an instant (ps), which keeps its place on the screen; never beyond the run, never below 10 ps. */
export function zoom(data: PreviewData, view: View, factor: number, around: number): View {
  const span = Math.min(data.end, Math.max(10, (view.to - view.from) * factor));
  const share = (around - view.from) / (view.to - view.from);
  return placed(data, view, around - share * span, span);
}

/** By a part of the window; stops at both ends of the run. */
export function pan(data: PreviewData, view: View, part: number): View {
  const span = view.to - view.from;
  return placed(data, view, view.from + part * span, span);
}

export function toggleFold(data: PreviewData, view: View, index: number): View {
  const vector = data.traces[index].width > 1 ? index : data.traces[index].parent;
  if (vector === null) return view;
  const unfolded = new Set(view.unfolded);
  const { focus } = view;
  if (!unfolded.delete(vector)) return { ...view, unfolded: unfolded.add(vector) };
  // The focus of a bit that folds away goes to its vector.
  const isInside = focus !== null && data.traces[focus.trace].parent === vector;
  return { ...view, unfolded, focus: isInside ? focusAt(data, vector, timeOf(data, focus)) : focus };
}

/** On the change of a trace at or before an instant. */
export function focusAt(data: PreviewData, trace: number, time: number): Focus {
  return { trace, change: lastAtOrBefore(data.traces[trace].changes.at, time) };
}

/** Focus on a trace; the window moves where the edge stands outside of it. */
export function withFocus(data: PreviewData, view: View, focus: Focus | null): View {
  if (focus === null) return view;
  const time = timeOf(data, focus);
  const span = view.to - view.from;
  const next = { ...view, focus };
  return time >= view.from && time <= view.to ? next : placed(data, next, time - span / 2, span);
}

export function timeOf(data: PreviewData, { trace, change }: Focus): number {
  return change < 0 ? 0 : data.traces[trace].changes.at[change];
}

function placed(data: PreviewData, view: View, from: number, span: number): View {
  const start = Math.max(0, Math.min(from, data.end - span));
  return { ...view, from: start, to: start + span };
}

function focusTime(data: PreviewData, view: View): number {
  const middle = (view.from + view.to) / 2;
  const time = view.focus === null ? middle : timeOf(data, view.focus);
  return time >= view.from && time <= view.to ? time : middle;
}

function edgeFrom(data: PreviewData, view: View, by: 1 | -1): Focus | null {
  if (view.focus === null) return firstFocus(data, view);
  const { trace, change } = view.focus;
  const next = Math.max(-1, Math.min(change + by, data.traces[trace].changes.at.length - 1));
  return { trace, change: next };
}

/** The trace above or below on the screen, at the same time. */
function traceFrom(data: PreviewData, view: View, by: 1 | -1): Focus | null {
  if (view.focus === null) return firstFocus(data, view);
  const shown = shownTraces(data, view);
  const next = shown[shown.indexOf(view.focus.trace) + by];
  return next === undefined ? view.focus : focusAt(data, next, timeOf(data, view.focus));
}

function firstFocus(data: PreviewData, view: View): Focus | null {
  const [first] = shownTraces(data, view);
  return first === undefined ? null : focusAt(data, first, view.from);
}

function shownTraces(data: PreviewData, view: View): readonly number[] {
  return rowsOf(data, view).flatMap((row) => (row.kind === 'trace' ? [row.trace] : []));
}

/** One cause upstream: the nearest one that is drawn. */
function toCause(data: PreviewData, view: View): View {
  if (view.focus === null || view.focus.change < 0) return view;
  const shown = new Set(shownTraces(data, view));
  let link = data.links[data.traces[view.focus.trace].changes.link[view.focus.change]];
  while (link !== undefined && link.cause >= 0) {
    link = data.links[link.cause];
    const { signal, at } = link;
    const index = data.traces.findIndex(({ name }) => name === signal);
    const trace = index >= 0 && !shown.has(index) ? data.traces[index].parent : index;
    if (trace !== null && trace >= 0 && shown.has(trace)) return withFocus(data, view, focusAt(data, trace, at));
  }
  return view;
}
