// The window of time: whole, nearer, further, along. It never leaves the run.

import type { Scene } from '../../server/src/drawing/scene';
import type { View } from '../../server/src/drawing/view';

/** ps that a window shows at least. */
const leastSpan = 10;

export function wholeRun({ data }: Scene, view: View): View {
  return { ...view, from: 0, to: Math.max(1, data.end) };
}

/** `factor` below 1 comes nearer; `around`, ps, keeps its place on the screen. */
export function zoom(scene: Scene, view: View, factor: number, around: number): View {
  const share = (around - view.from) / (view.to - view.from);
  const span = Math.min(Math.max(1, scene.data.end), Math.max(leastSpan, (view.to - view.from) * factor));
  return placed(scene, view, around - share * span, span);
}

/** By a part of what is seen. */
export function pan(scene: Scene, view: View, part: number): View {
  const span = view.to - view.from;
  return placed(scene, view, view.from + part * span, span);
}

/** The window of `span` ps that begins at `from`, or as near to it as the run allows. */
export function placed({ data }: Scene, view: View, from: number, span: number): View {
  const start = Math.max(0, Math.min(from, data.end - span));
  return { ...view, from: start, to: start + span };
}
