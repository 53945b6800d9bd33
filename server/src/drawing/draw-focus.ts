// The edge in focus: its trace shaded, a ring around it, and a thread to each cause upstream as far as it is drawn. A
// thread is slanted, so that it is never taken for a wave.

import type { Lane } from './rows';
import type { Scene } from './scene';
import type { Shape } from './shape';
import { isInWindow, type View, xOf } from './view';

/** Where a trace stands; null where it is folded away. */
export type LaneOf = (trace: number) => Lane | null;

/** Behind everything else. */
export function drawFocusedRow(view: View, lanes: LaneOf): readonly Shape[] {
  const lane = view.focus === null ? null : lanes(view.focus.trace);
  if (lane === null) return [];
  const [y, height] = [lane.high - 10, lane.low - lane.high + 13];
  return [
    { kind: 'box', role: 'shade', filled: true, x: 0, y, width: view.width, height },
    { kind: 'box', role: 'focus', filled: true, x: 0, y, width: 3, height },
  ];
}

export function drawFocus(scene: Scene, view: View, lanes: LaneOf): readonly Shape[] {
  const { focus } = view;
  const lane = focus === null ? null : lanes(focus.trace);
  if (focus === null || lane === null) return [];
  const { changes } = scene.data.traces[focus.trace];
  if (focus.change < 0) return drawRing(view, 0, lane);
  return [
    ...drawThreads(scene, view, lanes, { link: changes.link[focus.change], lane }),
    ...drawRing(view, changes.at[focus.change], lane),
  ];
}

function drawRing(view: View, at: number, { high, low }: Lane): readonly Shape[] {
  if (!isInWindow(view, at)) return [];
  const size = { width: 12, height: low - high + 6 };
  return [{ kind: 'box', role: 'focus', filled: false, x: xOf(view, at) - 6, y: high - 3, ...size }];
}

interface End {
  readonly link: number;
  readonly lane: Lane;
}

/** Causes that no trace shows are passed over: the thread goes on to the next one upstream. */
function drawThreads(scene: Scene, view: View, lanes: LaneOf, from: End): readonly Shape[] {
  const { links } = scene.data;
  const shapes: Shape[] = [];
  let end = from;
  let link = links[from.link];
  while (link !== undefined && link.cause >= 0) {
    const lane = laneOfSignal(scene, links[link.cause].signal, lanes);
    if (lane !== null) {
      shapes.push(...drawThread(view, scene, { link: link.cause, lane }, end));
      end = { link: link.cause, lane };
    }
    link = links[link.cause];
  }
  return shapes;
}

/** The trace of a bit, or of the folded vector that holds it. */
function laneOfSignal({ data, traceNamed }: Scene, signal: string, lanes: LaneOf): Lane | null {
  const index = traceNamed.get(signal);
  if (index === undefined) return null;
  const { parent } = data.traces[index];
  return lanes(index) ?? (parent === null ? null : lanes(parent));
}

function drawThread(view: View, { data: { links } }: Scene, cause: End, effect: End): readonly Shape[] {
  const [begin, end] = [links[cause.link].at, links[effect.link].at];
  if (!isInWindow(view, begin) || !isInWindow(view, end)) return [];
  const [x, y] = [xOf(view, begin), (cause.lane.high + cause.lane.low) / 2];
  const points = [x, y, xOf(view, end), (effect.lane.high + effect.lane.low) / 2];
  return [
    { kind: 'path', role: 'thread', points, weight: 'bold', dashed: true },
    { kind: 'mark', role: 'thread', form: 'dot', x, y, size: 4 },
  ];
}
