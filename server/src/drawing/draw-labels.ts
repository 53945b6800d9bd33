// What stands beside the waves: group headers, names indented by stage, a fold sign before vectors, notes on the right,
// and what is said of a reading below its values.

import type { PreviewReading } from '../report/preview-data';
import { labelRoom, marginsOf, noteRoom } from './margins';
import type { Row } from './rows';
import { depthOf, type Scene } from './scene';
import { type Shape, shorten, textWidth } from './shape';
import type { View } from './view';

const { end, sign: signWidth, start, step } = labelRoom;

export function drawGroupHeader({ data }: Scene, view: View, row: Row & { kind: 'group' }): readonly Shape[] {
  const { name } = data.groups[row.group];
  const words = name === null ? 'in no clock domain' : `clock domain ${name}`;
  const text = shorten(words, 'note', view.width - 2 * start);
  const y = row.top + 17;
  return [
    { kind: 'box', role: 'shade', filled: true, x: 0, y: row.top + 2, width: view.width, height: row.height - 6 },
    { kind: 'text', role: 'text', x: start, y, anchor: 'start', face: 'note', text },
  ];
}

export function drawTraceLabel(scene: Scene, view: View, row: Row & { kind: 'trace' }): readonly Shape[] {
  const trace = scene.data.traces[row.trace];
  const x = labelStart(scene, view, row.trace);
  const y = row.top + row.height / 2 + 8;
  const sign = trace.width === 1 ? '' : view.unfolded.has(row.trace) ? '▾ ' : '▸ ';
  const name = shorten(sign + trace.name, 'name', marginsOf(view).left - x - end);
  return [
    { kind: 'text', role: 'text', x, y, anchor: 'start', face: 'name', text: name },
    ...drawNote(view, y, trace.note),
  ];
}

export function drawOtherwiseLabel(scene: Scene, view: View, row: Row & { kind: 'otherwise' }): readonly Shape[] {
  const x = labelStart(scene, view, row.trace) + 10;
  const text = shorten('what if', 'note', marginsOf(view).left - x - end);
  return [{ kind: 'text', role: 'muted', x, y: row.top + row.height / 2 + 8, anchor: 'start', face: 'note', text }];
}

export function drawReadingLabel({ data }: Scene, view: View, row: Row & { kind: 'reading' }): readonly Shape[] {
  const reading = data.readings[row.reading];
  const y = row.top + 15;
  const text = shorten(`reading ${reading.name}`, 'note', marginsOf(view).left - start - end);
  return [
    { kind: 'text', role: 'muted', x: start, y, anchor: 'start', face: 'note', text },
    ...drawNote(view, y, orderOf(reading)),
    ...drawCaption(view, row.top + 31, reading.caption),
  ];
}

/** Below a vector whose values are the reading. */
export function drawOwnCaption({ data }: Scene, view: View, row: Row & { kind: 'caption' }): readonly Shape[] {
  return drawCaption(view, row.top + 11, data.readings[row.reading].caption);
}

/** px where a name begins: stages step to the right, so that a ripple is seen as a staircase; bits stand under their vector. */
function labelStart({ data, deepest }: Scene, view: View, trace: number): number {
  const { left } = marginsOf(view);
  // However deep a chain is, its last name can be read.
  const room = left - start - Math.min(100, 0.7 * left);
  const width = view.words.left <= left ? step : Math.min(step, room / deepest);
  return start + depthOf(data.traces[trace]) * width;
}

/** Whether an x, px, is on the sign that folds and unfolds a vector. */
export function isOnFoldSign(scene: Scene, view: View, trace: number, x: number): boolean {
  const left = labelStart(scene, view, trace);
  return scene.data.traces[trace].width > 1 && x >= left - 4 && x < left + signWidth;
}

function drawCaption(view: View, y: number, caption: string): readonly Shape[] {
  const { left } = marginsOf(view);
  const text = shorten(caption, 'note', view.width - left - start);
  if (text === '') return [];
  // Lines of root edges run through here; on a plate the words can be read.
  const plate = { x: left - 2, y: y - 11, width: textWidth(text, 'note') + 4, height: 14 };
  return [
    { kind: 'box', role: 'background', filled: true, ...plate },
    { kind: 'text', role: 'muted', x: left, y, anchor: 'start', face: 'note', text },
  ];
}

function drawNote(view: View, y: number, note: string): readonly Shape[] {
  const { right } = marginsOf(view);
  const text = shorten(note, 'note', right - noteRoom.start - noteRoom.end);
  if (text === '') return [];
  return [
    { kind: 'text', role: 'muted', x: view.width - right + noteRoom.start, y, anchor: 'start', face: 'note', text },
  ];
}

/** `[3] … [0]` where all are bits of what the reading is called. */
function orderOf({ bits, name }: PreviewReading): string {
  const ends = [bits[0], bits[bits.length - 1]];
  const short = ends.map((bit) => (bit.startsWith(`${name}[`) ? bit.slice(name.length) : bit));
  return bits.length < 2 ? '' : short.join(' … ');
}
