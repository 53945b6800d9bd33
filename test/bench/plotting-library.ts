// The paths of uPlot, a general plotting library, without a browser: its path builders are handed what a chart of one
// series knows, and a path that only keeps what it is told. What a browser then does with the path is not counted.

import uPlot from 'uplot';
import { RecordedPath } from './recording-canvas';

export interface Series {
  /** Both ascending ps and levels between 0 and 1, of equal length. */
  readonly times: readonly number[];
  readonly levels: readonly number[];
  /** px */
  readonly width: number;
  readonly height: number;
}

/** Builds the path of the whole series: as a line, of which the library draws what pixels can show, or in steps. */
export function pathBuilder(kind: 'line' | 'stepped', series: Series): () => unknown {
  Object.assign(globalThis, { Path2D: RecordedPath, devicePixelRatio: 1 });
  const { linear, stepped } = uPlot.paths;
  const build = kind === 'line' ? linear?.() : stepped?.({ align: 1 });
  if (build === undefined) throw new Error(`uPlot has no ${kind} path`);
  const chart = chartOf(series);
  return () => build(chart, 1, 0, series.times.length - 1);
}

/** What the path builders read of a chart, at the pinned version. */
function chartOf({ height, levels, times, width }: Series): uPlot {
  const end = times[times.length - 1];
  const chart = {
    mode: 1,
    bands: [],
    _data: [times, levels],
    bbox: { left: 0, top: 0, width, height },
    scales: {
      x: { key: 'x', ori: 0, dir: 1, distr: 1, min: 0, max: end },
      y: { key: 'y', ori: 1, dir: 1, distr: 1, min: 0, max: 1 },
    },
    series: [
      { scale: 'x' },
      { scale: 'y', pxRound: Math.round, gaps: () => [], fill: null, spanGaps: false, width: 1.5, min: 0, max: 1 },
    ],
    valToPosH: (value: number) => (value / end) * width,
    valToPosV: (value: number) => height - value * height,
    posToVal: (position: number) => (position / width) * end,
  };
  return chart as unknown as uPlot;
}
