// What is saved of the picture: as it is zoomed and folded, with every row, on the width of a handout and in the colors of
// paper, as SVG or as PNG.

import { fileName } from '../../server/src/drawing/file-name';
import type { Picture } from '../../server/src/drawing/picture';
import type { Scene } from '../../server/src/drawing/scene';
import { drawSheet } from '../../server/src/drawing/sheet';
import { paper, svgOf } from '../../server/src/drawing/svg';
import { isInWindow, type View } from '../../server/src/drawing/view';
import type { Drawing, DrawingForm } from '../../server/src/editor/panel-messages';
import { timeOf } from './focus';
import { paint } from './paint';

export interface Handout {
  readonly suggestedName: string;
  readonly drawing: Drawing;
}

const width = 1200;

/** Null where the form cannot hold the picture: a PNG of very many rows. */
export function handoutOf(scene: Scene, view: View, form: DrawingForm): Handout | null {
  // An edge that is not on the sheet would only shade its row.
  const focus = view.focus !== null && isInWindow(view, timeOf(scene, view.focus)) ? view.focus : null;
  const title = scene.data.top ?? 'no design';
  const sheet = drawSheet(scene, { ...view, width, focus });
  const content = form === 'svg' ? svgOf(sheet, title) : pngOf(sheet);
  return content === null ? null : { suggestedName: `${fileName(title)}.${form}`, drawing: { form, content } };
}

/** Dots per unit of the picture, as on a dense screen; fewer where the sheet is long. */
const density = 2;
/** A canvas of more dots in one direction stays empty in some browsers. */
const mostDots = 16_384;

/** Base 64; null where the sheet is longer than a canvas can be. */
function pngOf(sheet: Picture): string | null {
  const ratio = Math.min(density, mostDots / sheet.height);
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(sheet.width * ratio);
  canvas.height = Math.round(sheet.height * ratio);
  const surface = ratio < 1 ? null : canvas.getContext('2d');
  if (surface === null) return null;
  surface.setTransform(ratio, 0, 0, ratio, 0, 0);
  paint(surface, sheet, paper);
  const [, content = ''] = canvas.toDataURL('image/png').split(',');
  return content === '' ? null : content;
}
