// What is saved of the picture: as it is zoomed and folded, with every row, on the width of a handout.

import type { Scene } from '../../server/src/drawing/scene';
import { drawSheet } from '../../server/src/drawing/sheet';
import { svgOf } from '../../server/src/drawing/svg';
import { isInWindow, type View } from '../../server/src/drawing/view';
import { timeOf } from './focus';

export interface Handout {
  readonly suggestedName: string;
  readonly svg: string;
}

const width = 1200;

export function handoutOf(scene: Scene, view: View): Handout {
  // An edge that is not on the sheet would only shade its row.
  const focus = view.focus !== null && isInWindow(view, timeOf(scene, view.focus)) ? view.focus : null;
  const title = scene.data.top ?? 'no design';
  return { suggestedName: `${fileName(title)}.svg`, svg: svgOf(drawSheet(scene, { ...view, width, focus }), title) };
}

/** A name that every file system takes; a design may be called anything. */
function fileName(title: string): string {
  return title.replace(/[^\p{L}\p{N}_-]+/gu, '-').slice(0, 60) || 'timing';
}
