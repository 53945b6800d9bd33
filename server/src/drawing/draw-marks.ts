// What is laid over the waves: settling bands, glitch marks with their widths, stretches in doubt, and, for the edge in
// focus, the threads that join it to what caused it.

import type { PreviewData } from '../report/preview-data';
import type { Row } from './rows';
import { timeText } from './draw-axis';
import type { Lane } from './draw-bit';
import { fits, type Shape } from './shape';
import { margins, type View, xOf } from './view';

export type LaneOf = (trace: number) => Lane | null;

export function laneOf(row: Row): Lane {
  return { high: row.top + 7, low: row.top + row.height - 6 };
}

export function drawSettling(data: PreviewData, view: View, trace: number, { high, low }: Lane): readonly Shape[] {
  return data.traces[trace].settling
    .filter(({ from, to }) => to >= view.from && from <= view.to)
    .map(({ from, to }) => {
      const x = xOf(view, Math.max(from, view.from));
      const width = Math.max(1, xOf(view, Math.min(to, view.to)) - x);
      return { kind: 'texture', role: 'moving', pattern: 'moving', x, y: high, width, height: low - high };
    });
}

/** A triangle above the pulse; its width in time beside it where there is room before the next one. */
export function drawGlitches(data: PreviewData, view: View, lanes: LaneOf): readonly Shape[] {
  const marks = data.glitches.filter(({ at, until }) => until >= view.from && at <= view.to);
  return marks.flatMap(({ trace, at, until, harmless, certainty }, index): Shape[] => {
    const lane = lanes(trace);
    if (lane === null) return [];
    const role = harmless ? 'quiet-glitch' : 'glitch';
    const x = xOf(view, (at + until) / 2);
    const next = marks.slice(index + 1).find((other) => other.trace === trace);
    const room = (next === undefined ? view.width - margins.right : xOf(view, next.at)) - x - 12;
    const text = `${timeText(until - at)}${certainty === 'possible' ? '?' : ''}`;
    const mark: Shape = { kind: 'mark', role, x, y: lane.high - 1, size: 5 };
    if (!fits(text, 'note', room)) return [mark];
    return [mark, { kind: 'text', role, x: x + 7, y: lane.high + 3, anchor: 'start', face: 'note', text }];
  });
}

/** Ring around the changed edge, and a thread to each cause upstream as far as it is drawn. */
export function drawFocus(data: PreviewData, view: View, lanes: LaneOf): readonly Shape[] {
  const { focus } = view;
  if (focus === null) return [];
  const lane = lanes(focus.trace);
  if (lane === null) return [];
  const row: Shape = {
    kind: 'box',
    role: 'focus',
    filled: false,
    x: margins.left - 2,
    y: lane.high - 5,
    width: view.width - margins.left - margins.right + 4,
    height: lane.low - lane.high + 9,
  };
  const link = data.traces[focus.trace].changes.link[focus.change];
  if (focus.change < 0 || link === undefined) return [row];
  const at = data.traces[focus.trace].changes.at[focus.change];
  return [row, ...drawRing(view, at, lane), ...drawThreads(data, view, lanes, { link, lane })];
}

function drawRing(view: View, at: number, { high, low }: Lane): readonly Shape[] {
  if (at < view.from || at > view.to) return [];
  const [x, width] = [xOf(view, at) - 4, 8];
  return [{ kind: 'box', role: 'focus', filled: false, x, y: high - 2, width, height: low - high + 4 }];
}

function drawThreads(
  data: PreviewData,
  view: View,
  lanes: LaneOf,
  from: { readonly link: number; readonly lane: Lane },
): readonly Shape[] {
  const shapes: Shape[] = [];
  let [lane, link] = [from.lane, data.links[from.link]];
  while (link !== undefined && link.cause >= 0) {
    const cause = data.links[link.cause];
    const causeLane = laneOfSignal(data, cause.signal, lanes);
    if (causeLane !== null && cause.at >= view.from && link.at <= view.to) {
      shapes.push(thread(xOf(view, cause.at), middle(causeLane), xOf(view, link.at), middle(lane)));
      lane = causeLane;
    }
    link = cause;
  }
  return shapes;
}

/** The trace of a bit, or of the folded vector that holds it. */
function laneOfSignal({ traces }: PreviewData, signal: string, lanes: LaneOf): Lane | null {
  const index = traces.findIndex(({ name }) => name === signal);
  if (index < 0) return null;
  const { parent } = traces[index];
  return lanes(index) ?? (parent === null ? null : lanes(parent));
}

function thread(fromX: number, fromY: number, toX: number, toY: number): Shape {
  const points = [fromX, fromY, fromX, (fromY + toY) / 2, toX, (fromY + toY) / 2, toX, toY];
  return { kind: 'path', role: 'thread', points, weight: 'bold', dashed: true };
}

function middle({ high, low }: Lane): number {
  return (high + low) / 2;
}
