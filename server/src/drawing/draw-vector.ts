// A vector as one trace: its value written over a base line, a post at every change. Changes that fall into one pixel
// become a block; a value that does not fit is left out, never squeezed. Where its reading is not settled it is hatched.

import type { PreviewReading } from '../report/preview-data';
import { spansIn } from './columns';
import { valueText } from './digits';
import { drawBlock, drawUnknown, type Span, type Wave } from './draw-bit';
import type { Lane } from './rows';
import { fits, type Shape } from './shape';
import { timeWindow, type View, xOf } from './view';

export function drawVector({ isDashed, stretches, trace }: Wave, view: View, lane: Lane): readonly Shape[] {
  const shapes: Shape[] = [];
  const posts: number[] = [];
  for (const { busy, change, from, to } of stretches) {
    const span = { left: xOf(view, from), right: xOf(view, to) };
    if (busy) {
      shapes.push(drawBlock(span, lane));
      continue;
    }
    if (change >= 0 && trace.changes.at[change] === from) {
      posts.push(Number.NaN, Number.NaN, span.left, lane.high, span.left, lane.low);
    }
    const digits = change < 0 ? trace.start : trace.changes.value[change];
    shapes.push(...drawValue(digits, view, span, lane, trace.names));
  }
  const base = [xOf(view, view.from), lane.low, xOf(view, view.to), lane.low];
  return [...shapes, { kind: 'path', role: 'line', points: [...base, ...posts], weight: 'normal', dashed: isDashed }];
}

/** The gaps of a reading, in which the value on the way is none that the design means. */
export function drawGaps({ stretches }: PreviewReading, view: View, lane: Lane): readonly Shape[] {
  return spansIn(stretches, timeWindow(view)).flatMap(({ from, more, span, to }): Shape[] => {
    if (span.value !== null || more > 0) return [];
    const x = xOf(view, from);
    const width = Math.max(1, xOf(view, to) - x);
    return [
      { kind: 'texture', role: 'moving', pattern: 'moving', x, y: lane.high, width, height: lane.low - lane.high },
    ];
  });
}

/** Room that a value needs at least; with less it need not even be worked out. */
const leastRoom = 13;

function drawValue(
  digits: string,
  view: View,
  span: Span,
  lane: Lane,
  names: Wave['trace']['names'],
): readonly Shape[] {
  const room = span.right - span.left;
  const isUnknown = digits.includes('x');
  if (room < leastRoom) return isUnknown ? drawUnknown(span, lane, '') : [];
  const text = valueText(digits, view.radix, names);
  if (isUnknown) return drawUnknown(span, lane, text);
  if (!fits(text, 'value', room - 6)) return [];
  const [x, y] = [(span.left + span.right) / 2, lane.low - 5];
  return [{ kind: 'text', role: 'text', x, y, anchor: 'middle', face: 'value', text }];
}
