// Puts shapes on a canvas. Dull on purpose: every decision is already in the shapes, every color in the palette.

import type { Picture } from '../../server/src/drawing/picture';
import { fontSize, type Role, type Shape } from '../../server/src/drawing/shape';

/** Color of each role, as the theme gives it. */
export type Palette = Readonly<Record<Role, string>>;

/** What is used of a canvas' 2D context; tests hand in one that only takes notes. */
export type Surface = Pick<
  CanvasRenderingContext2D,
  | 'fillStyle'
  | 'strokeStyle'
  | 'lineWidth'
  | 'font'
  | 'textAlign'
  | 'direction'
  | 'fillRect'
  | 'strokeRect'
  | 'fillText'
  | 'beginPath'
  | 'closePath'
  | 'moveTo'
  | 'lineTo'
  | 'arc'
  | 'stroke'
  | 'fill'
  | 'setLineDash'
  | 'save'
  | 'restore'
  | 'rect'
  | 'clip'
>;

const strokes = { thin: 0.75, normal: 1.5, bold: 2 } as const;

export function paint(surface: Surface, picture: Picture, palette: Palette): void {
  surface.fillStyle = palette.background;
  surface.fillRect(0, 0, picture.width, picture.height);
  // A name that runs from right to left must not turn the labels around it.
  surface.direction = 'ltr';
  for (const shape of picture.shapes) paintShape(surface, shape, palette);
}

function paintShape(surface: Surface, shape: Shape, palette: Palette): void {
  const color = palette[shape.role];
  surface.fillStyle = color;
  surface.strokeStyle = color;
  switch (shape.kind) {
    case 'path':
      paintPath(surface, shape);
      break;
    case 'texture':
      paintTexture(surface, shape);
      break;
    case 'box':
      paintBox(surface, shape);
      break;
    case 'text':
      paintText(surface, shape);
      break;
    case 'mark':
      paintMark(surface, shape, palette.background);
      break;
  }
}

/** A browser takes several times as long for one path of a thousand corners as for the same in pieces. */
const cornersToPiece = 32;

function paintPath(surface: Surface, { points, weight, dashed }: Shape & { kind: 'path' }): void {
  surface.lineWidth = strokes[weight];
  surface.setLineDash(dashed ? [4, 3] : []);
  surface.beginPath();
  // Corners since the pen was set down.
  let joined = 0;
  for (let index = 0; index < points.length; index += 2) {
    const [x, y] = [points[index], points[index + 1]];
    joined = Number.isNaN(x) ? 0 : joined + 1;
    if (joined === 1) surface.moveTo(x, y);
    if (joined > 1) surface.lineTo(x, y);
    const isPieceFull = index % (2 * cornersToPiece) === 2 * cornersToPiece - 2;
    if (isPieceFull && !dashed) beginPiece(surface, points, { index, joined });
  }
  surface.stroke();
  surface.setLineDash([]);
}

/** The last line is drawn once more, so that the corner at its end is as sharp as any. */
function beginPiece(
  surface: Surface,
  points: readonly number[],
  { index, joined }: { readonly index: number; readonly joined: number },
): void {
  surface.stroke();
  surface.beginPath();
  const start = joined > 1 ? index - 2 : index;
  if (joined > 0) surface.moveTo(points[start], points[start + 1]);
  if (joined > 1) surface.lineTo(points[index], points[index + 1]);
}

/** Diagonal strokes 6 px apart, cut to the box; crossed for `unknown`. */
function paintTexture(surface: Surface, { pattern, x, y, width, height }: Shape & { kind: 'texture' }): void {
  surface.save();
  surface.beginPath();
  surface.rect(x, y, width, height);
  surface.clip();
  surface.lineWidth = 1;
  surface.beginPath();
  const first = Math.floor((x - height) / 6) * 6;
  for (let left = first; left < x + width; left += 6) {
    surface.moveTo(left, y + height);
    surface.lineTo(left + height, y);
    if (pattern === 'unknown') {
      surface.moveTo(left, y);
      surface.lineTo(left + height, y + height);
    }
  }
  surface.stroke();
  surface.restore();
}

function paintBox(surface: Surface, { filled, x, y, width, height }: Shape & { kind: 'box' }): void {
  surface.lineWidth = 1.5;
  if (filled) surface.fillRect(x, y, width, height);
  else surface.strokeRect(x, y, width, height);
}

function paintText(surface: Surface, { x, y, anchor, face, text }: Shape & { kind: 'text' }): void {
  surface.font = `${fontSize[face]}px ${face === 'note' || face === 'title' ? 'system-ui, sans-serif' : 'monospace'}`;
  surface.textAlign = anchor === 'middle' ? 'center' : anchor;
  surface.fillText(text, x, y);
}

function paintMark(surface: Surface, { form, size, x, y }: Shape & { kind: 'mark' }, background: string): void {
  surface.beginPath();
  if (form === 'dot') surface.arc(x, y, size, 0, 2 * Math.PI);
  else {
    surface.moveTo(x, y);
    surface.lineTo(x - size, y - size);
    surface.lineTo(x + size, y - size);
  }
  surface.closePath();
  if (form === 'open-pointer') surface.fillStyle = background;
  surface.fill();
  surface.lineWidth = 1;
  if (form === 'open-pointer') surface.stroke();
}
