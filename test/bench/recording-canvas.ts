// A canvas that keeps what it is told as numbers and draws nothing: what is left of drawing where there is no browser,
// the same for whoever draws on it.

import type { Surface } from '../../webview/src/paint';

/** Stands in for `Path2D`, which has to be made with `new`. */
export class RecordedPath {
  readonly points: number[] = [];

  moveTo(x: number, y: number): void {
    this.points.push(x, y);
  }

  lineTo(x: number, y: number): void {
    this.points.push(x, y);
  }
}

export function recordingSurface(): Surface {
  let path = new RecordedPath();
  const record = (...numbers: readonly number[]) => {
    path.points.push(...numbers);
  };
  const ignore = () => {};
  return {
    fillStyle: '',
    strokeStyle: '',
    lineWidth: 1,
    font: '',
    textAlign: 'start',
    direction: 'ltr',
    beginPath: () => {
      path = new RecordedPath();
    },
    moveTo: (x, y) => path.moveTo(x, y),
    lineTo: (x, y) => path.lineTo(x, y),
    fillRect: record,
    strokeRect: record,
    rect: record,
    arc: (x, y, radius) => record(x, y, radius),
    fillText: (_, x, y) => record(x, y),
    closePath: ignore,
    stroke: ignore,
    fill: ignore,
    setLineDash: ignore,
    save: ignore,
    restore: ignore,
    clip: ignore,
  };
}
