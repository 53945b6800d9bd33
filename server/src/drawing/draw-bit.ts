// One bit over time: a line at the top for 1, at the bottom for 0, in the middle with a letter for z, a crossed texture
// with the letter x for an unknown value, and a solid block where it changes faster than pixels can show.

import type { PreviewTrace } from '../report/preview-data';
import { stretchesOf } from './columns';
import { fits, type Shape } from './shape';
import { plotWidth, type View, xOf } from './view';

/** Top and bottom of the wave itself, px. */
export interface Lane {
  readonly high: number;
  readonly low: number;
}

export function drawBit(trace: PreviewTrace, view: View, lane: Lane): readonly Shape[] {
  const points: number[] = [];
  const shapes: Shape[] = [];
  const window = { from: view.from, to: view.to, columns: Math.ceil(plotWidth(view)) };
  for (const stretch of stretchesOf(trace.changes.at, window)) {
    const [left, right] = [xOf(view, stretch.from), xOf(view, stretch.to)];
    if (stretch.busy) {
      shapes.push(block(left, right, lane));
      points.push(Number.NaN, Number.NaN);
      continue;
    }
    const value = stretch.change < 0 ? trace.start : trace.changes.value[stretch.change];
    if (value === 'x') {
      shapes.push(...drawUnknown(left, right, lane));
      points.push(Number.NaN, Number.NaN);
      continue;
    }
    const y = levelOf(value, lane);
    points.push(left, y, right, y);
    if (value === 'z') shapes.push(...letter('z', left, right, lane));
  }
  return [...shapes, { kind: 'path', role: 'line', points, weight: 'normal', dashed: false }];
}

export function levelOf(value: string, { high, low }: Lane): number {
  return value === '1' ? high : value === '0' ? low : (high + low) / 2;
}

/** An unknown value: a texture of its own and the letter x where it fits. */
export function drawUnknown(left: number, right: number, lane: Lane): readonly Shape[] {
  const width = Math.max(1, right - left);
  const { high, low } = lane;
  return [
    { kind: 'texture', role: 'unknown', pattern: 'unknown', x: left, y: high, width, height: low - high },
    ...letter('x', left, right, lane),
  ];
}

function letter(text: string, left: number, right: number, { high, low }: Lane): readonly Shape[] {
  if (!fits(text, 'value', right - left - 4)) return [];
  const [x, y] = [(left + right) / 2, (high + low) / 2 + 4];
  return [{ kind: 'text', role: 'text', x, y, anchor: 'middle', face: 'value', text }];
}

function block(left: number, right: number, { high, low }: Lane): Shape {
  return {
    kind: 'box',
    role: 'line',
    filled: true,
    x: left,
    y: high,
    width: Math.max(1, right - left),
    height: low - high,
  };
}
