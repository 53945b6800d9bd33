// What is drawn, without saying on what: a list of shapes in pixels, back to front. Colors are roles; whoever paints maps
// them to a theme. No shape tells by color alone: textures, dashes and letters say the same.

import { visibleText } from './visible-text';

/** What a shape stands for, and so which color of the theme it takes. */
export type Role =
  | 'line'
  | 'text'
  | 'muted'
  | 'grid'
  | 'moving'
  | 'unknown'
  | 'glitch'
  | 'quiet-glitch'
  | 'thread'
  | 'focus'
  | 'background'
  | 'shade';

export type Shape =
  /** Joined points x0 y0 x1 y1 …; NaN lifts the pen. */
  | {
      readonly kind: 'path';
      readonly role: Role;
      readonly points: readonly number[];
      readonly weight: 'thin' | 'normal' | 'bold';
      readonly dashed: boolean;
    }
  /** `moving`: strokes that rise to the right. `unknown`: crossed strokes. */
  | {
      readonly kind: 'texture';
      readonly role: Role;
      readonly pattern: 'moving' | 'unknown';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  | {
      readonly kind: 'box';
      readonly role: Role;
      readonly filled: boolean;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  /** x, y: the anchor on the base line. Text is whatever the design says: whoever writes it out must escape it. */
  | {
      readonly kind: 'text';
      readonly role: Role;
      readonly x: number;
      readonly y: number;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly face: Face;
      readonly text: string;
    }
  /** A triangle that points down at x, y, filled or in outline; or a dot around x, y. */
  | {
      readonly kind: 'mark';
      readonly role: Role;
      readonly form: 'pointer' | 'open-pointer' | 'dot';
      readonly x: number;
      readonly y: number;
      readonly size: number;
    };

/** Pixels that one character takes at most, by face: enough to decide what fits without measuring. */
export const characterWidth = { name: 7.3, value: 7, note: 6.2, title: 9.5 } as const;
export const fontSize = { name: 12, value: 12, note: 11, title: 17 } as const;

export type Face = keyof typeof characterWidth;

/** px at most, as long as every character is as narrow as Latin ones; ideographs take twice that. */
export function textWidth(text: string, face: Face): number {
  return [...text].reduce((sum, character) => sum + (character < '\u2e80' ? 1 : 2), 0) * characterWidth[face];
}

export function fits(text: string, face: Face, width: number): boolean {
  return textWidth(text, face) <= width;
}

/**
 * The longest beginning that fits, with an ellipsis where something is left out; empty where not even that fits. What
 * cannot be seen is written out.
 */
export function shorten(written: string, face: Face, width: number): string {
  const text = visibleText(written);
  if (fits(text, face, width)) return text;
  let kept = '';
  for (const character of text) {
    if (!fits(`${kept}${character}…`, face, width)) break;
    kept += character;
  }
  return kept === '' ? '' : `${kept}…`;
}
