// The whole picture: a scene and a view become shapes, back to front, for the rows that are seen. Pure: the same input
// gives the same shapes.

import { stretchesOf } from './columns';
import { drawAxis, drawRootEdges } from './draw-axis';
import { drawBit } from './draw-bit';
import { drawFocus, drawFocusedRow, type LaneOf } from './draw-focus';
import { drawGroupHeader, drawOtherwiseLabel, drawOwnCaption, drawReadingLabel, drawTraceLabel } from './draw-labels';
import { drawDoubts, drawGlitches, drawSettling } from './draw-marks';
import { drawReading } from './draw-reading';
import { drawGaps, drawVector } from './draw-vector';
import { isSeen, laneOf, type Row, rowsOf, totalHeight } from './rows';
import type { Scene } from './scene';
import type { Shape } from './shape';
import { timeWindow, type View } from './view';

export interface Picture {
  /** px of what is drawn. */
  readonly width: number;
  readonly height: number;
  /** px of all rows with the axis: what there is to scroll through. */
  readonly totalHeight: number;
  /** All rows, also those that are not seen. */
  readonly rows: readonly Row[];
  readonly shapes: readonly Shape[];
}

export function drawPicture(scene: Scene, view: View): Picture {
  const rows = rowsOf(scene, view);
  const whole = totalHeight(rows);
  const seen = rows.filter((row) => isSeen(row, view));
  const byTrace = new Map(rows.flatMap((row) => (row.kind === 'trace' ? [[row.trace, laneOf(row)] as const] : [])));
  const lanes: LaneOf = (trace) => byTrace.get(trace) ?? null;
  return {
    width: view.width,
    height: Math.min(view.height, whole),
    totalHeight: whole,
    rows,
    shapes: [
      ...drawFocusedRow(view, lanes),
      ...drawRootEdges(scene, view, rows),
      ...seen.flatMap((row) => drawRow(scene, view, row)),
      ...drawFocus(scene, view, lanes),
      ...drawAxis(view),
    ],
  };
}

function drawRow(scene: Scene, view: View, row: Row): readonly Shape[] {
  const { readings, traces } = scene.data;
  switch (row.kind) {
    case 'group':
      return drawGroupHeader(scene, view, row);
    case 'reading':
      return [...drawReading(readings[row.reading], view, row), ...drawReadingLabel(scene, view, row)];
    case 'caption':
      return drawOwnCaption(scene, view, row);
    case 'otherwise':
      return drawOtherwise(scene, view, row);
    case 'trace': {
      const trace = traces[row.trace];
      const lane = laneOf(row);
      const wave = { trace, stretches: stretchesOf(scene.timelines[row.trace], timeWindow(view)), isDashed: false };
      const own = scene.ownReading[row.trace];
      return [
        ...drawSettling(trace, view, lane),
        ...(own === null ? [] : drawGaps(readings[own], view, lane)),
        ...(trace.width > 1 ? drawVector(wave, view, lane) : drawBit(wave, view, lane)),
        ...drawGlitches(scene, view, { trace: row.trace, lane }),
        ...drawDoubts(scene.doubts[row.trace], view, lane),
        ...drawTraceLabel(scene, view, row),
      ];
    }
  }
}

/** In dashes under the trace that it differs from. */
function drawOtherwise(scene: Scene, view: View, row: Row & { kind: 'otherwise' }): readonly Shape[] {
  const other = scene.otherwise[row.trace];
  if (other === null) return [];
  const { timeline, trace } = other;
  const wave = { trace, stretches: stretchesOf(timeline, timeWindow(view)), isDashed: true };
  const lane = laneOf(row);
  return [
    ...(trace.width > 1 ? drawVector(wave, view, lane) : drawBit(wave, view, lane)),
    ...drawOtherwiseLabel(scene, view, row),
  ];
}
