// One signal over a few periods, small enough for a hover: its clock above it, names on the left, the axis on top. What it
// shows is a cutting from the whole picture, drawn by the same hands.

import type { PreviewData, PreviewTrace } from '../report/preview-data';
import { drawAxis } from './draw-axis';
import { drawBit } from './draw-bit';
import { drawDoubts, drawGlitches, drawSettling } from './draw-marks';
import { drawVector } from './draw-vector';
import type { Picture } from './picture';
import { type Lane, laneOf, type Row } from './rows';
import { type Scene, sceneOf } from './scene';
import { type Shape, shorten } from './shape';
import { axisHeight, marginsOf, type View } from './view';

/** px */
const width = 440;
const rowHeight = 34;
/** Rows at most: a hover is no page. */
const mostRows = 6;

/** Null for a signal that has no trace. `until`: what happens last of what is to be seen, ps. */
export function drawSmall(data: PreviewData, signal: string): Picture | null {
  const own = tracesOf(data, signal);
  if (own.length === 0) return null;
  const traces = [...clockOf(data, own), ...own].slice(0, mostRows);
  const scene = sceneOf(data);
  const height = axisHeight + traces.length * rowHeight + 4;
  const view = viewOf(data, { traces, own, height });
  const rows = traces.map((trace, index): Row & { kind: 'trace' } => ({
    kind: 'trace',
    trace,
    top: axisHeight + index * rowHeight,
    height: rowHeight,
  }));
  return {
    width,
    height,
    totalHeight: height,
    rows,
    shapes: [...rows.flatMap((row) => drawRow(scene, view, row)), ...drawAxis(view)],
  };
}

/** Indices of the traces of a signal: of the whole, or of its stretches where they are clocked apart. */
export function tracesOf({ traces }: PreviewData, signal: string): readonly number[] {
  return traces.flatMap(({ name, parent }, index) => (parent === null && signalOf(name) === signalOf(signal) ? [index] : []));
}

/** `u.q[3:0]` is of `u.q`. */
function signalOf(name: string): string {
  return name.replace(/\[-?\d+(?::-?\d+)?\]$/, '');
}
