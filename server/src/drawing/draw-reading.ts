// The number that a group of bits holds at each settled instant; a gap, textured as moving, while a bit still moves.

import type { PreviewReading } from '../report/preview-data';
import { type SeenSpan, spansIn } from './columns';
import { valueText } from './digits';
import type { Row } from './rows';
import { fits, type Shape } from './shape';
import { timeWindow, type View, xOf } from './view';

type Stretch = PreviewReading['stretches'][number];

export function drawReading({ names, stretches }: PreviewReading, view: View, row: Row): readonly Shape[] {
  return spansIn(stretches, timeWindow(view)).flatMap((seen) => drawStretch(seen, view, row.top + 3, names));
}

const height = 16;

/** Several stretches in one column are too short to be told apart: still moving, as far as the picture can say. */
function drawStretch(
  { from, more, span, to }: SeenSpan<Stretch>,
  view: View,
  y: number,
  names: PreviewReading['names'],
): readonly Shape[] {
  const [left, right] = [xOf(view, from), xOf(view, to)];
  if (span.value === null && more === 0) {
    const width = Math.max(1.5, right - left);
    return [{ kind: 'texture', role: 'moving', pattern: 'moving', x: left, y, width, height }];
  }
  const value = more === 0 ? span.value : null;
  if (value === null || right - left < 10) return [];
  const text = valueText(value, view.radix, names);
  if (!fits(text, 'value', right - left - 4)) return [];
  const x = (left + right) / 2;
  return [{ kind: 'text', role: 'text', x, y: y + 12, anchor: 'middle', face: 'value', text }];
}
