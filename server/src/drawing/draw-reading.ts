// The number that a group of bits holds at each settled instant; a gap, textured as moving, while a bit still moves.

import type { PreviewReading } from '../report/preview-data';
import { valueText } from './digits';
import type { Row } from './rows';
import { fits, type Shape } from './shape';
import { type View, xOf } from './view';

export function drawReading(reading: PreviewReading, view: View, row: Row): readonly Shape[] {
  const [top, height] = [row.top + 3, 14];
  const radix = view.radix;
  let edge = Number.NEGATIVE_INFINITY;
  return inWindow(reading.stretches, view).flatMap(({ from, to, value }): Shape[] => {
    const [left, right] = [xOf(view, Math.max(from, view.from)), xOf(view, Math.min(to, view.to))];
    if (right - edge < 1) return [];
    edge = right;
    if (value === null) {
      const width = Math.max(1.5, right - left);
      return [{ kind: 'texture', role: 'moving', pattern: 'moving', x: left, y: top, width, height }];
    }
    const text = valueText(value, radix);
    if (!fits(text, 'value', right - left - 4)) return [];
    const [x, y] = [(left + right) / 2, top + 11];
    return [{ kind: 'text', role: 'text', x, y, anchor: 'middle', face: 'value', text }];
  });
}

function inWindow(stretches: PreviewReading['stretches'], view: View): PreviewReading['stretches'] {
  const first = stretches.findIndex(({ to }) => to > view.from);
  if (first < 0) return [];
  const after = stretches.findIndex(({ from }) => from >= view.to);
  return stretches.slice(first, after < 0 ? stretches.length : after);
}
