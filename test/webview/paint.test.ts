// Canvas and SVG draw the same shapes: what a canvas is told, noted down, against what the SVG says.
import { describe, expect, it } from 'vitest';
import { drawPicture } from '../../server/src/drawing/picture';
import { sceneOf } from '../../server/src/drawing/scene';
import type { Role } from '../../server/src/drawing/shape';
import { svgOf } from '../../server/src/drawing/svg';
import { handoutView } from '../../server/src/drawing/view';
import { paint, type Palette, type Surface } from '../../webview/src/paint';
import { rippleOfTwo } from '../drawing/previews';

const roles: readonly Role[] = [
  'line',
  'text',
  'muted',
  'grid',
  'moving',
  'unknown',
  'glitch',
  'quiet-glitch',
  'thread',
  'focus',
  'background',
  'shade',
];
const palette = Object.fromEntries(roles.map((role) => [role, `color of ${role}`])) as Palette;

interface Note {
  readonly call: string;
  readonly args: readonly unknown[];
  readonly fill: string;
  readonly stroke: string;
}

/** A canvas that only takes notes. */
function notingSurface(): { readonly surface: Surface; readonly notes: readonly Note[] } {
  const notes: Note[] = [];
  const state: Record<string, unknown> = {};
  const surface = new Proxy(state, {
    get: (_, name) => {
      const note = (...args: readonly unknown[]) => {
        notes.push({ call: String(name), args, fill: String(state.fillStyle), stroke: String(state.strokeStyle) });
      };
      return name in state ? state[String(name)] : note;
    },
  });
  return { surface: surface as unknown as Surface, notes };
}

const data = rippleOfTwo();
const focus = { trace: 2, change: 0 };
const picture = drawPicture(sceneOf(data), { ...handoutView(data), focus });
const svg = svgOf(picture, 'top');
const { notes, surface } = notingSurface();
paint(surface, picture, palette);
const round = (value: unknown) => Math.round(Number(value) * 100) / 100;

describe('canvas and SVG', () => {
  it('write the same texts at the same places', () => {
    const written = notes
      .filter(({ call }) => call === 'fillText')
      .map(({ args }) => [args[0], round(args[1]), round(args[2])]);
    const inSvg = [...svg.matchAll(/<text x="([^"]+)" y="([^"]+)"[^>]*>([^<]*)</g)].map(([, x, y, text]) => [
      text,
      Number(x),
      Number(y),
    ]);
    expect(written).toEqual(inSvg);
  });

  it('fill and outline the same boxes, in the same order', () => {
    const boxes = notes
      .filter(({ call }) => call === 'strokeRect' || call === 'fillRect')
      .slice(1)
      .map(({ args }) => args.map(round));
    const inSvg = [
      ...svg.matchAll(/<rect x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)" fill="(?!url)/g),
    ].map((found) => found.slice(1, 5).map(Number));
    expect(boxes).toEqual(inSvg);
  });

  it('turn the same corners', () => {
    const paths = picture.shapes.filter(({ kind }) => kind === 'path').length;
    expect(notes.filter(({ call }) => call === 'setLineDash').length).toBe(2 * paths);
    const [wave] = [...svg.matchAll(/<path d="([^"]*)" fill="none"/g)]
      .map(([, path]) => path)
      .sort((a, b) => b.length - a.length);
    const corners = notes.flatMap(({ args, call }) =>
      call === 'moveTo'
        ? [`M${args.map(round).join(' ')}`]
        : call === 'lineTo'
          ? [`L${args.map(round).join(' ')}`]
          : [],
    );
    expect(corners.join('')).toContain(wave);
  });

  it('draw every line of a long path, in pieces that a browser is quick with', () => {
    const lifted = [40, 62, 63, 65, 127];
    const points = Array.from({ length: 300 }, (_, index) =>
      lifted.includes(index) ? [Number.NaN, Number.NaN] : [index, index % 7],
    );
    const path = { kind: 'path', role: 'line', points: points.flat(), weight: 'normal', dashed: false } as const;
    const long = notingSurface();
    paint(long.surface, { ...picture, shapes: [path] }, palette);
    const drawn = new Set<string>();
    let pen = '';
    for (const { args, call } of long.notes) {
      if (call === 'lineTo') drawn.add(`${pen} to ${args}`);
      if (call === 'moveTo' || call === 'lineTo') pen = String(args);
      if (call === 'beginPath') pen = 'nowhere';
    }
    const wanted = points.flatMap((end, index) => {
      const isJoined = index > 0 && !lifted.includes(index) && !lifted.includes(index - 1);
      return isJoined ? [`${points[index - 1]} to ${end}`] : [];
    });
    expect([...drawn]).toEqual(wanted);
    expect(long.notes.filter(({ call }) => call === 'stroke').length).toBeGreaterThan(5);
  });

  it('take every color from the palette', () => {
    const used = new Set(notes.flatMap(({ fill, stroke }) => [fill, stroke]).filter((color) => color !== 'undefined'));
    for (const color of used) expect(Object.values(palette)).toContain(color);
    expect(used).toContain(palette.thread);
  });

  it('give back what they take from the canvas', () => {
    const count = (name: string) => notes.filter(({ call }) => call === name).length;
    expect(count('save')).toBe(count('restore'));
  });
});
