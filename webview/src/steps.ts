// From one view to the next: what each key does. Pure, so that the keyboard is tested without a keyboard.

import { rowsOf } from '../../server/src/drawing/rows';
import type { Scene } from '../../server/src/drawing/scene';
import { isInWindow, type View } from '../../server/src/drawing/view';
import { focusAt, focusOnLink, timeOf, withFocus } from './focus';
import { pan, wholeRun, zoom } from './window';

export type Step =
  | 'next-edge'
  | 'previous-edge'
  | 'next-trace'
  | 'previous-trace'
  | 'cause'
  | 'back'
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
  Backspace: 'back',
  ' ': 'fold',
  '+': 'zoom-in',
  '=': 'zoom-in',
  '-': 'zoom-out',
  PageUp: 'pan-left',
  PageDown: 'pan-right',
  Home: 'fit',
};

/** `back` is none of these: whoever keeps the views gone through takes it. */
export function take(step: Exclude<Step, 'back'>, scene: Scene, view: View): View {
  switch (step) {
    case 'next-edge':
      return stepEdge(scene, view, 1);
    case 'previous-edge':
      return stepEdge(scene, view, -1);
    case 'next-trace':
      return stepTrace(scene, view, 1);
    case 'previous-trace':
      return stepTrace(scene, view, -1);
    case 'cause':
      return stepToCause(scene, view);
    case 'fold':
      return view.focus === null ? view : toggleFold(scene, view, view.focus.trace);
    case 'zoom-in':
      return zoom(scene, view, 0.5, stillPoint(scene, view));
    case 'zoom-out':
      return zoom(scene, view, 2, stillPoint(scene, view));
    case 'pan-left':
      return pan(scene, view, -0.5);
    case 'pan-right':
      return pan(scene, view, 0.5);
    case 'fit':
      return wholeRun(scene, view);
  }
}

/** Of a vector or of one of its bits; the focus of a bit that folds away goes to its vector. */
export function toggleFold(scene: Scene, view: View, trace: number): View {
  const { parent, width } = scene.data.traces[trace];
  const vector = width > 1 ? trace : parent;
  if (vector === null) return view;
  if (!view.unfolded.has(vector)) return { ...view, unfolded: new Set([...view.unfolded, vector]) };
  const unfolded = new Set([...view.unfolded].filter((index) => index !== vector));
  const { focus } = view;
  const isInside = focus !== null && scene.data.traces[focus.trace].parent === vector;
  const next = { ...view, unfolded };
  return isInside ? withFocus(scene, next, focusAt(scene, vector, timeOf(scene, focus))) : next;
}

/** Zooming leaves the edge in focus where it is, or the middle where that is not seen. */
function stillPoint(scene: Scene, view: View): number {
  const time = view.focus === null ? Number.NaN : timeOf(scene, view.focus);
  return isInWindow(view, time) ? time : (view.from + view.to) / 2;
}

function stepEdge(scene: Scene, view: View, by: 1 | -1): View {
  if (view.focus === null) return focusFirst(scene, view);
  const { change, trace } = view.focus;
  const last = scene.data.traces[trace].changes.at.length - 1;
  return withFocus(scene, view, { trace, change: Math.max(-1, Math.min(change + by, last)) });
}

/** The trace above or below on the screen, at the same time. */
function stepTrace(scene: Scene, view: View, by: 1 | -1): View {
  if (view.focus === null) return focusFirst(scene, view);
  const shown = shownTraces(scene, view);
  const next = shown[shown.indexOf(view.focus.trace) + by];
  return next === undefined ? view : withFocus(scene, view, focusAt(scene, next, timeOf(scene, view.focus)));
}

function focusFirst(scene: Scene, view: View): View {
  const [first] = shownTraces(scene, view);
  return first === undefined ? view : withFocus(scene, view, focusAt(scene, first, view.from));
}

function shownTraces(scene: Scene, view: View): readonly number[] {
  return rowsOf(scene, view).flatMap((row) => (row.kind === 'trace' ? [row.trace] : []));
}

/** One cause upstream: the nearest one that a trace shows. */
function stepToCause(scene: Scene, view: View): View {
  if (view.focus === null || view.focus.change < 0) return view;
  const { links, traces } = scene.data;
  let link = links[traces[view.focus.trace].changes.link[view.focus.change]];
  while (link !== undefined && link.cause >= 0) {
    const focus = focusOnLink(scene, view, link.cause);
    if (focus !== null) return withFocus(scene, view, focus);
    link = links[link.cause];
  }
  return view;
}
