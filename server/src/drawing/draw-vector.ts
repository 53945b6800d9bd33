// A folded vector: its value written over a base line, a short post at every change. Posts that fall into one pixel
// become a block; a value that does not fit is left out, never squeezed.

import type { PreviewTrace } from '../report/preview-data';
import { stretchesOf } from './columns';
import { valueText } from './digits';
import { drawUnknown, type Lane } from './draw-bit';
import { fits, type Shape } from './shape';
import { plotWidth, type View, xOf } from './view';

export function drawVector(trace: PreviewTrace, view: View, lane: Lane): readonly Shape[] {
  const window = { from: view.from, to: view.to, columns: Math.ceil(plotWidth(view)) };
  const posts: number[] = [];
  const shapes: Shape[] = [];
  for (const stretch of stretchesOf(trace.changes.at, window)) {
    const [left, right] = [xOf(view, stretch.from), xOf(view, stretch.to)];
    if (stretch.busy) {
      shapes.push({
        kind: 'box',
        role: 'line',
        filled: true,
        x: left,
        y: lane.high,
        width: Math.max(1, right - left),
        height: lane.low - lane.high,
      });
      continue;
    }
    const digits = stretch.change < 0 ? trace.start : trace.changes.value[stretch.change];
    if (stretch.change >= 0 && trace.changes.at[stretch.change] >= view.from) {
      posts.push(Number.NaN, Number.NaN, left, lane.high, left, lane.low);
    }
    shapes.push(...drawValue(valueText(digits, view.radix), digits, left, right, lane));
  }
  const base = [xOf(view, view.from), lane.low, xOf(view, view.to), lane.low];
  return [...shapes, { kind: 'path', role: 'line', points: [...base, ...posts], weight: 'normal', dashed: false }];
}

function drawValue(text: string, digits: string, left: number, right: number, lane: Lane): readonly Shape[] {
  if (/^x+$/.test(digits)) return drawUnknown(left, right, lane);
  if (!fits(text, 'value', right - left - 6)) return [];
  const [x, y] = [(left + right) / 2, lane.low - 6];
  return [{ kind: 'text', role: 'text', x, y, anchor: 'middle', face: 'value', text }];
}
