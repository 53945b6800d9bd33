// The whole picture: preview data and a view become shapes, back to front. Pure: the same input gives the same shapes.

import type { PreviewData } from '../report/preview-data';
import { drawAxis } from './draw-axis';
import { drawBit, type Lane } from './draw-bit';
import { drawGroupHeader, drawReadingLabel, drawTraceLabel } from './draw-labels';
import { drawFocus, drawGlitches, drawSettling, laneOf } from './draw-marks';
import { drawReading } from './draw-reading';
import { drawVector } from './draw-vector';
import { type Row, rowsOf, totalHeight } from './rows';
import type { Shape } from './shape';
import type { View } from './view';

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly Row[];
  readonly shapes: readonly Shape[];
}

export function drawPicture(data: PreviewData, view: View): Picture {
  const rows = rowsOf(data, view);
  const height = totalHeight(rows);
  const lanes = new Map<number, Lane>(rows.flatMap((row) => (row.kind === 'trace' ? [[row.trace, laneOf(row)]] : [])));
  const lookUp = (trace: number) => lanes.get(trace) ?? null;
  return {
    width: view.width,
    height,
    rows,
    shapes: [
      ...drawAxis(view, height),
      ...rows.flatMap((row) => drawRow(data, view, row)),
      ...drawGlitches(data, view, lookUp),
      ...drawFocus(data, view, lookUp),
    ],
  };
}

function drawRow(data: PreviewData, view: View, row: Row): readonly Shape[] {
  if (row.kind === 'group') return drawGroupHeader(data, view, row);
  if (row.kind === 'reading') {
    return [...drawReadingLabel(data, view, row), ...drawReading(data.readings[row.reading], view, row)];
  }
  const trace = data.traces[row.trace];
  const lane = laneOf(row);
  return [
    ...drawSettling(data, view, row.trace, lane),
    ...(trace.width > 1 ? drawVector(trace, view, lane) : drawBit(trace, view, lane)),
    ...drawTraceLabel(data, view, row),
  ];
}
