// Shapes as SVG text: on paper, or on whatever an editor shows it on; the same bytes for the same picture. Whatever a design
// says is escaped.

import type { Picture } from './picture';
import { fontSize, type Role, type Shape } from './shape';

export type Palette = Readonly<Record<Role, string>>;

/** Dark on white, told apart in gray as well: print keeps no theme. */
export const paper: Palette = {
  line: '#1c2733',
  text: '#1c2733',
  muted: '#56616d',
  grid: '#dfe4e8',
  moving: '#8a7a4a',
  unknown: '#6b5b95',
  glitch: '#a3341f',
  'quiet-glitch': '#8f8378',
  thread: '#2a6f97',
  focus: '#2a6f97',
  background: '#ffffff',
  shade: '#f0f2f4',
};

/**
 * For a picture that cannot know its ground: tones from the middle, at least 3 to 1 against white and black alike (the least
 * contrast that WCAG 2.1, 1.4.11 asks of graphics), and no ground of its own.
 */
export const anyGround: Palette = {
  line: '#767f89',
  text: '#767f89',
  muted: '#767f89',
  grid: '#767f89',
  moving: '#94762c',
  unknown: '#8870c4',
  glitch: '#d34a3b',
  'quiet-glitch': '#8a7f75',
  thread: '#2f87b8',
  focus: '#2f87b8',
  background: 'none',
  shade: 'none',
};

/** In the ink of the text around it, on its ground: for a picture that is a part of a page. */
export const ink: Palette = Object.fromEntries(
  Object.keys(paper).map((role) => [role, role === 'background' || role === 'shade' ? 'none' : 'currentColor']),
) as Palette;

const strokes = { thin: 0.75, normal: 1.5, bold: 2 } as const;

/** `title`: what the picture is of, for whoever does not see it. */
export function svgOf(picture: Picture, title: string, palette: Palette = paper): string {
  return wholeOf(picture, title, palette, [
    texturePattern('moving', palette, 'M0 6 L6 0'),
    texturePattern('unknown', palette, 'M0 6 L6 0 M0 0 L6 6'),
  ]);
}

/** As `svgOf`, of a picture without textures: several may stand in one page, since nothing in it has a name. */
export function plainSvgOf(picture: Picture, title: string, palette: Palette = ink): string {
  return wholeOf(picture, title, palette, []);
}

function wholeOf(picture: Picture, title: string, palette: Palette, patterns: readonly string[]): string {
  const { width, height, shapes } = picture;
  const size = `width="${round(width)}" height="${round(height)}" viewBox="0 0 ${round(width)} ${round(height)}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" ${size} font-family="system-ui, sans-serif">`,
    `<title>${escapeMarkup(title)}</title>`,
    ...patterns,
    `<rect width="100%" height="100%" fill="${palette.background}"/>`,
    ...shapes.map((shape) => element(shape, palette)),
    '</svg>',
    '',
  ].join('\n');
}

function texturePattern(role: 'moving' | 'unknown', palette: Palette, path: string): string {
  // Where nothing lies under the digits but the texture, it stays behind them.
  const faint = palette.background === 'none' ? ' stroke-opacity="0.4"' : '';
  const stroke = `stroke="${palette[role]}" stroke-width="1"${faint} fill="none"`;
  return `<pattern id="${role}" width="6" height="6" patternUnits="userSpaceOnUse"><path d="${path}" ${stroke}/></pattern>`;
}

function element(shape: Shape, palette: Palette): string {
  const color = palette[shape.role];
  switch (shape.kind) {
    case 'path': {
      const dash = shape.dashed ? ' stroke-dasharray="4 3"' : '';
      const stroke = `stroke="${color}" stroke-width="${strokes[shape.weight]}"${dash}`;
      return `<path d="${pathData(shape.points)}" fill="none" ${stroke}/>`;
    }
    case 'texture':
      return `<rect ${box(shape)} fill="url(#${shape.pattern})"/>`;
    case 'box':
      return `<rect ${box(shape)} ${shape.filled ? `fill="${color}"` : `fill="none" stroke="${color}" stroke-width="1.5"`}/>`;
    case 'text': {
      const face = `font-size="${fontSize[shape.face]}"${shape.face === 'note' || shape.face === 'title' ? '' : ' font-family="monospace"'}`;
      const at = `x="${round(shape.x)}" y="${round(shape.y)}" text-anchor="${shape.anchor}"`;
      return `<text ${at} ${face} fill="${color}">${escapeMarkup(shape.text)}</text>`;
    }
    case 'mark':
      return mark(shape, color, palette.background);
  }
}

function mark({ form, size, x, y }: Shape & { kind: 'mark' }, color: string, ground: string): string {
  if (form === 'dot') return `<circle cx="${round(x)}" cy="${round(y)}" r="${size}" fill="${color}"/>`;
  const triangle = `${pathData([x, y, x - size, y - size, x + size, y - size])}Z`;
  const paint = form === 'pointer' ? `fill="${color}"` : `fill="${ground}" stroke="${color}"`;
  return `<path d="${triangle}" ${paint}/>`;
}

function pathData(points: readonly number[]): string {
  let pen = 'M';
  let data = '';
  for (let index = 0; index < points.length; index += 2) {
    if (Number.isNaN(points[index])) {
      pen = 'M';
      continue;
    }
    data += `${pen}${round(points[index])} ${round(points[index + 1])}`;
    pen = 'L';
  }
  return data;
}

function box({ x, y, width, height }: Shape & { kind: 'box' | 'texture' }): string {
  return `x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}"`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

/** For element content and attribute values in quotes; characters that XML refuses become a replacement character. */
export function escapeMarkup(text: string): string {
  return [...text]
    .map((character) => (isAllowed(character.codePointAt(0) ?? 0) ? (entities[character] ?? character) : '\uFFFD'))
    .join('');
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** XML 1.0, production 2 (Char). */
function isAllowed(code: number): boolean {
  return (
    code === 9 ||
    code === 10 ||
    code === 13 ||
    (code >= 0x20 && !(code >= 0xd800 && code <= 0xdfff) && code < 0xfffe) ||
    code > 0xffff
  );
}
