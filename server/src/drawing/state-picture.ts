// The states of a register as a walk: boxes in a row in the order in which they are first reached, a step to the next one
// straight on, a step further ahead over the row, a step back under it; one that stays has a hook on its box. States that
// are never reached stand apart below, in dashes, with what becomes of them. The table beside it says all of it in words.

import type { PreviewStates } from '../report/preview-data';
import type { Picture } from './picture';
import { type characterWidth, type Shape, shorten, textWidth } from './shape';

/** More are no picture that anybody reads. */
const mostStates = 24;
const mostUnused = 12;

const border = 10;
const boxHeight = 26;
const track = 18;
const apart = { least: 34, most: 150 } as const;
const noteLine = 14;

type Steps = PreviewStates['states'];

/** A step between boxes by their numbers. */
interface Way {
  readonly from: number;
  readonly to: number;
  readonly when: string;
}

/** Null where nothing is told, or too much for a picture. */
export function drawStates(data: PreviewStates): Picture | null {
  const { states, statesTotal, unused } = data;
  if (states.length === 0 || statesTotal > mostStates || states.length < statesTotal) return null;
  const ways = waysOf(states);
  const labels = states.map(labelOf);
  const boxWidth = widest([...labels, ...unused.slice(0, mostUnused).map(labelOf)], 'value') + 18;
  const straight = ways.filter(({ from, to }) => to === from + 1);
  const between = Math.min(
    apart.most,
    Math.max(
      apart.least,
      widest(
        straight.map(({ when }) => when),
        'note',
      ) + 16,
    ),
  );
  const over = levelled(ways.filter(({ from, to }) => to > from + 1));
  const under = levelled(ways.filter(({ from, to }) => to < from));
  const top = border + noteLine + 10 + depthOf(over) * track;
  const place = { boxWidth, between, top };
  const rowBottom = top + boxHeight + 8 + depthOf(under) * track + noteLine;
  const below = drawUnused(data, place, rowBottom);
  const width = 2 * border + states.length * boxWidth + (states.length - 1) * between;
  const shapes = [
    ...startMark(data, place),
    ...labels.flatMap((label, index) => drawBox(label, { x: leftOf(place, index), y: top, width: boxWidth })),
    ...ways.filter(({ from, to }) => from === to).flatMap(({ from }) => drawHook(place, from)),
    ...straight.flatMap((way) => drawStraight(place, way)),
    ...over.flatMap(({ level, way }) => drawTrack(place, way, { edge: top, level: -level })),
    ...under.flatMap(({ level, way }) => drawTrack(place, way, { edge: top + boxHeight, level })),
    ...below.shapes,
  ];
  const height = below.bottom + border;
  return { width: Math.max(width, below.width), height, totalHeight: height, rows: [], shapes };
}

interface Place {
  readonly boxWidth: number;
  readonly between: number;
  readonly top: number;
}

function waysOf(states: Steps): readonly Way[] {
  const indexOf = new Map(states.map(({ value }, index) => [value, index]));
  return states.flatMap(({ next }, from) =>
    next.flatMap(({ to, when }) => {
      const target = indexOf.get(to);
      return target === undefined ? [] : [{ from, to: target, when }];
    }),
  );
}

function labelOf({ name, value }: { readonly name: string | null; readonly value: string }): string {
  return shorten(name === null ? value : `${name} ${value}`, 'value', 140);
}

function widest(texts: readonly string[], face: keyof typeof characterWidth): number {
  return texts.reduce((most, text) => Math.max(most, textWidth(text, face)), 0);
}

/** Each on the lowest track that is free over its whole length, short ones first. */
function levelled(ways: readonly Way[]): readonly { readonly way: Way; readonly level: number }[] {
  const tracks: (readonly [number, number])[][] = [];
  return [...ways]
    .sort((one, other) => Math.abs(one.to - one.from) - Math.abs(other.to - other.from) || one.from - other.from)
    .map((way) => {
      const [low, high] = [Math.min(way.from, way.to), Math.max(way.from, way.to)];
      const isFree = (taken: readonly (readonly [number, number])[]) =>
        taken.every(([from, to]) => to < low || from > high);
      const found = tracks.findIndex(isFree);
      const level = found < 0 ? tracks.push([]) - 1 : found;
      tracks[level].push([low, high]);
      return { way, level: level + 1 };
    });
}

function depthOf(ways: readonly { readonly level: number }[]): number {
  return ways.reduce((most, { level }) => Math.max(most, level), 0);
}

function leftOf({ between, boxWidth }: Place, index: number): number {
  return border + index * (boxWidth + between);
}

function middleOf(place: Place, index: number): number {
  return leftOf(place, index) + place.boxWidth / 2;
}

function drawBox(
  label: string,
  { x, y, width }: { readonly x: number; readonly y: number; readonly width: number },
): readonly Shape[] {
  return [
    { kind: 'box', role: 'line', filled: false, x, y, width, height: boxHeight },
    {
      kind: 'text',
      role: 'text',
      x: x + width / 2,
      y: y + boxHeight - 8,
      anchor: 'middle',
      face: 'value',
      text: label,
    },
  ];
}

function startMark({ start, states }: PreviewStates, place: Place): readonly Shape[] {
  const index = states.findIndex(({ value }) => value === start);
  if (index < 0) return [];
  const x = leftOf(place, index) + 6;
  return [
    { kind: 'text', role: 'muted', x: x - 6, y: border + noteLine - 4, anchor: 'start', face: 'note', text: 'start' },
    { kind: 'mark', role: 'line', form: 'pointer', x, y: place.top - 2, size: 6 },
    ...(place.top - 10 > border + noteLine ? [line([x, border + noteLine, x, place.top - 8])] : []),
  ];
}

function drawHook(place: Place, index: number): readonly Shape[] {
  const [left, right] = [middleOf(place, index) + 2, middleOf(place, index) + 14];
  return [
    line([left, place.top, left, place.top - 8, right, place.top - 8, right, place.top]),
    head(right, place.top, 'down'),
  ];
}

function drawStraight(place: Place, { from, to, when }: Way): readonly Shape[] {
  const y = place.top + boxHeight / 2;
  const [left, right] = [leftOf(place, from) + place.boxWidth, leftOf(place, to)];
  return [
    line([left, y, right, y]),
    head(right, y, 'right'),
    ...note(when, (left + right) / 2, y - 5, right - left - 8),
  ];
}

/** Over the row with a negative level, under it with a positive one. */
function drawTrack(
  place: Place,
  { from, to, when }: Way,
  { edge, level }: { readonly edge: number; readonly level: number },
): readonly Shape[] {
  const y = edge + level * track + Math.sign(level) * 4;
  const aside = from < to ? 8 : -8;
  const [start, end] = [middleOf(place, from) + aside, middleOf(place, to) - aside];
  return [
    line([start, edge, start, y, end, y, end, edge]),
    head(end, edge, level < 0 ? 'down' : 'up'),
    ...note(when, (start + end) / 2, level < 0 ? y - 3 : y + 11, Math.abs(end - start) - 8),
  ];
}

function note(text: string, x: number, y: number, room: number): readonly Shape[] {
  const shown = shorten(text, 'note', room);
  return shown === '' ? [] : [{ kind: 'text', role: 'muted', x, y, anchor: 'middle', face: 'note', text: shown }];
}

function line(points: readonly number[], dashed = false): Shape {
  return { kind: 'path', role: 'line', points, weight: 'thin', dashed };
}

/** Two strokes that meet where the step arrives. */
function head(x: number, y: number, way: 'right' | 'up' | 'down'): Shape {
  const back = { right: [-6, -4, -6, 4], up: [-4, 6, 4, 6], down: [-4, -6, 4, -6] }[way];
  return line([x + back[0], y + back[1], x, y, x + back[2], y + back[3]]);
}

function drawUnused(
  { unused, unusedTotal }: PreviewStates,
  { boxWidth }: Place,
  top: number,
): { readonly shapes: readonly Shape[]; readonly bottom: number; readonly width: number } {
  if (unused.length === 0) return { shapes: [], bottom: top, width: 0 };
  const shown = unused.slice(0, mostUnused);
  const room =
    Math.max(
      boxWidth,
      widest(
        shown.map(({ words }) => words),
        'note',
      ),
    ) + 16;
  const y = top + noteLine + 8;
  const more = (unusedTotal ?? unused.length) - shown.length;
  const rest = more > 0 ? ` (${more} more in the table)` : '';
  const shapes = shown.flatMap((each, index): Shape[] => {
    const x = border + index * room;
    return [
      line([x, y, x + boxWidth, y, x + boxWidth, y + boxHeight, x, y + boxHeight, x, y], true),
      {
        kind: 'text',
        role: 'muted',
        x: x + boxWidth / 2,
        y: y + boxHeight - 8,
        anchor: 'middle',
        face: 'value',
        text: labelOf(each),
      },
      { kind: 'text', role: 'muted', x, y: y + boxHeight + 13, anchor: 'start', face: 'note', text: each.words },
    ];
  });
  const head: Shape = {
    kind: 'text',
    role: 'muted',
    x: border,
    y: top + noteLine,
    anchor: 'start',
    face: 'note',
    text: `never reached${rest}`,
  };
  return { shapes: [head, ...shapes], bottom: y + boxHeight + 18, width: 2 * border + shown.length * room };
}
