// Where the focus is and what it takes to see it: the window of time and the rows move as little as they can.

import { lastAtOrBefore } from '../../server/src/drawing/columns';
import { rowsOf } from '../../server/src/drawing/rows';
import type { Scene } from '../../server/src/drawing/scene';
import { axisHeight, type Focus, isInWindow, type View } from '../../server/src/drawing/view';
import { placed } from './window';

/** On the change of a trace at or before an instant, ps. */
export function focusAt({ data }: Scene, trace: number, time: number): Focus {
  return { trace, change: lastAtOrBefore(data.traces[trace].changes.at, time) };
}

/** On the trace that shows a link: its bit, or the folded vector that holds it; null where none does. */
export function focusOnLink(scene: Scene, view: View, link: number): Focus | null {
  const { at, signal } = scene.data.links[link];
  const index = scene.traceNamed.get(signal);
  if (index === undefined) return null;
  const { parent } = scene.data.traces[index];
  return focusAt(scene, parent === null || view.unfolded.has(parent) ? index : parent, at);
}

/** ps; of a start: 0. */
export function timeOf({ data }: Scene, { change, trace }: Focus): number {
  return change < 0 ? 0 : data.traces[trace].changes.at[change];
}

export function withFocus(scene: Scene, view: View, focus: Focus): View {
  const time = timeOf(scene, focus);
  const span = view.to - view.from;
  const inTime = isInWindow(view, time) ? view : placed(scene, view, time - span / 2, span);
  return scrolledTo(scene, { ...inTime, focus }, focus.trace);
}

/**
 * On a trace that is asked for by name, at its last change so far; its row comes into view, time stays where it is. Null
 * where no trace shows any of the names.
 */
export function withTraceNamed(scene: Scene, view: View, names: readonly string[]): View | null {
  const named = names.map((name) => scene.traceNamed.get(name)).find((index) => index !== undefined);
  if (named === undefined) return null;
  const { parent } = scene.data.traces[named];
  const trace = parent === null || view.unfolded.has(parent) ? named : parent;
  if (view.focus?.trace === trace) return scrolledTo(scene, view, trace);
  return scrolledTo(scene, { ...view, focus: focusAt(scene, trace, view.to) }, trace);
}

/** So that the row of a trace stands below the axis and above the lower end. */
function scrolledTo(scene: Scene, view: View, trace: number): View {
  const row = rowsOf(scene, view).find((each) => each.kind === 'trace' && each.trace === trace);
  if (row === undefined) return view;
  const above = axisHeight - row.top;
  const under = row.top + row.height - view.height;
  if (above > 0) return { ...view, scroll: Math.max(0, view.scroll - above) };
  return under > 0 ? { ...view, scroll: view.scroll + under } : view;
}
