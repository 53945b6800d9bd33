// The room that words get beside the waves. Where a picture is wide it is always the same, so that pictures compare; where
// it is narrow the words get what they need and no more, and the waves the rest.

import type { PreviewData } from '../report/preview-data';
import { textWidth } from './shape';

/** px left of the waves, for names with their indentation, and right of them, for a few words per trace. */
export interface Margins {
  readonly left: number;
  readonly right: number;
}

/** px that the words of a preview need on either side, if nothing is shortened. */
export type WordRoom = Margins;

/** px of the picture, and what its words need. */
export interface Breadth {
  readonly width: number;
  readonly words: WordRoom;
}

/** px before the first name, per step of indentation, and of the sign before a vector. */
export const labelRoom = { start: 12, step: 14, sign: 16, end: 6 } as const;
/** px around the words on the right. */
export const noteRoom = { start: 10, end: 6 } as const;

export function marginsOf({ width, words }: Breadth): Margins {
  if (width >= roomy) return { left: 190, right: 150 };
  const left = Math.max(90, Math.min(words.left, 190, Math.round(width * 0.34)));
  const hasNotes = width >= cramped && words.right > bare;
  return { left, right: hasNotes ? Math.min(words.right, Math.round(width * 0.24)) : bare };
}

const roomy = 640;
/** Below this the words on the right give way: the account says them too. */
const cramped = 420;
const bare = 16;

export function wordRoom({ traces }: PreviewData): WordRoom {
  let left = 0;
  let right = 0;
  for (const { indent, name, note, parent, width } of traces) {
    const depth = indent + (parent === null ? 0 : 1);
    const sign = width > 1 ? labelRoom.sign : 0;
    left = Math.max(left, labelRoom.start + depth * labelRoom.step + sign + textWidth(name, 'name') + labelRoom.end);
    if (note !== '') right = Math.max(right, noteRoom.start + textWidth(note, 'note') + noteRoom.end);
  }
  return { left: Math.ceil(left), right: Math.ceil(right) };
}
