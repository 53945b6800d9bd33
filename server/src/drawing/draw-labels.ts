// What stands beside the waves: group headers, names indented by stage, a fold sign before vectors, notes on the right.

import type { PreviewData, PreviewTrace } from '../report/preview-data';
import type { Row } from './rows';
import { type Shape, shorten } from './shape';
import { margins, type View } from './view';

const indentWidth = 12;
/** However deep a chain is, a name keeps this much room. */
const widestIndent = margins.left - 90;

export function drawGroupHeader(data: PreviewData, view: View, row: Row & { kind: 'group' }): readonly Shape[] {
  const { name } = data.groups[row.group];
  const text = name === null ? 'in no clock domain' : `clock domain ${name}`;
  const y = row.top + row.height - 8;
  return [
    { kind: 'path', role: 'header', points: [0, row.top + 4, view.width, row.top + 4], weight: 'thin', dashed: false },
    {
      kind: 'text',
      role: 'header',
      x: 6,
      y,
      anchor: 'start',
      face: 'note',
      text: shorten(text, 'note', view.width - 12),
    },
  ];
}

export function drawTraceLabel(data: PreviewData, view: View, row: Row & { kind: 'trace' }): readonly Shape[] {
  const trace = data.traces[row.trace];
  const x = 8 + labelIndent(data, trace);
  const y = row.top + row.height / 2 + 4;
  const sign = trace.width > 1 ? (view.unfolded.has(row.trace) ? '▾ ' : '▸ ') : '';
  const name = shorten(sign + trace.name, 'name', margins.left - x - 6);
  const note = shorten(trace.note, 'note', margins.right - 10);
  return [
    { kind: 'text', role: 'text', x, y, anchor: 'start', face: 'name', text: name },
    ...(note === '' ? [] : [noteShape(view.width - margins.right + 8, y, note)]),
  ];
}

function noteShape(x: number, y: number, text: string): Shape {
  return { kind: 'text', role: 'muted', x, y, anchor: 'start', face: 'note', text };
}

/** Stages step to the right, so that a ripple is seen as a staircase; bits of a vector stand under it. */
export function labelIndent(data: PreviewData, trace: PreviewTrace): number {
  const depth = trace.indent + (trace.parent === null ? 0 : 1);
  const deepest = Math.max(1, ...data.traces.map(({ indent, parent }) => indent + (parent === null ? 0 : 1)));
  return depth * Math.min(indentWidth, widestIndent / deepest);
}

export function drawReadingLabel(data: PreviewData, view: View, row: Row & { kind: 'reading' }): readonly Shape[] {
  const reading = data.readings[row.reading];
  const y = row.top + 14;
  const name = shorten(`reading ${reading.name}`, 'note', margins.left - 14);
  const caption = shorten(reading.caption, 'note', view.width - margins.left - 10);
  return [
    { kind: 'text', role: 'muted', x: 8, y, anchor: 'start', face: 'note', text: name },
    ...(caption === '' ? [] : [noteShape(margins.left, row.top + 29, caption)]),
  ];
}
