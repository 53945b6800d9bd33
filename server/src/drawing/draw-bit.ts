// One bit over time: a line at the top for 1, at the bottom for 0, in the middle with a letter for z, a crossed texture
// with the letter x for an unknown value, and a solid block where it changes faster than pixels can show.

import type { PreviewTrace } from '../report/preview-data';
import type { Stretch } from './columns';
import type { Lane } from './rows';
import { fits, type Shape, textWidth } from './shape';
import { type View, xOf } from './view';

/** A trace and what pixels can show of it. */
export interface Wave {
  readonly trace: PreviewTrace;
  readonly stretches: readonly Stretch[];
  /** How it would be, not how it is. */
  readonly isDashed: boolean;
}

export function drawBit({ isDashed, stretches, trace }: Wave, view: View, lane: Lane): readonly Shape[] {
  const points: number[] = [];
  const shapes: Shape[] = [];
  for (const { busy, change, from, to } of stretches) {
    const span = { left: xOf(view, from), right: xOf(view, to) };
    const value = change < 0 ? trace.start : trace.changes.value[change];
    if (busy || value === 'x') {
      shapes.push(...(busy ? [drawBlock(span, lane)] : drawUnknown(span, lane, 'x')));
      points.push(Number.NaN, Number.NaN);
      continue;
    }
    const y = levelOf(value, lane);
    points.push(span.left, y, span.right, y);
    if (value === 'z') shapes.push(...letter('z', span, y - 4));
  }
  return [...shapes, { kind: 'path', role: 'line', points, weight: 'normal', dashed: isDashed }];
}

/** px */
export interface Span {
  readonly left: number;
  readonly right: number;
}

/** An unknown value: a texture of its own and, where they fit, its digits. */
export function drawUnknown({ left, right }: Span, { high, low }: Lane, text: string): readonly Shape[] {
  const width = Math.max(1, right - left);
  const texture = { x: left, y: high, width, height: low - high };
  return [
    { kind: 'texture', role: 'unknown', pattern: 'unknown', ...texture },
    ...drawPlate(text, { left, right }, { high, low }),
  ];
}

/** Changes that no pixels can tell apart. */
export function drawBlock({ left, right }: Span, { high, low }: Lane): Shape {
  const size = { width: Math.max(1, right - left), height: low - high };
  return { kind: 'box', role: 'line', filled: true, x: left, y: high, ...size };
}

/** Digits on a plate of their own, so that no texture runs through them. */
function drawPlate(text: string, { left, right }: Span, { high, low }: Lane): readonly Shape[] {
  const written = letter(text, { left, right }, (high + low) / 2 + 4);
  if (written.length === 0) return [];
  const width = textWidth(text, 'value') + 4;
  const plate = { x: (left + right - width) / 2, y: high + 1, width, height: low - high - 2 };
  return [{ kind: 'box', role: 'background', filled: true, ...plate }, ...written];
}

function letter(text: string, { left, right }: Span, y: number): readonly Shape[] {
  if (text === '' || !fits(text, 'value', right - left - 8)) return [];
  return [{ kind: 'text', role: 'text', x: (left + right) / 2, y, anchor: 'middle', face: 'value', text }];
}

function levelOf(value: string, { high, low }: Lane): number {
  return value === '1' ? high : value === '0' ? low : (high + low) / 2;
}
