// The picture as a handout: above it what it is of and how it was driven, below it what was assumed and what is not seen,
// so that the sheet still says so when it is found alone.

import type { PreviewData } from '../report/preview-data';
import { timeWords } from '../text/time-words';
import { settlingCaption } from './fact-tables';
import { drawPicture, type Picture } from './picture';
import type { Scene } from './scene';
import { type Shape, textWidth } from './shape';
import { drawStates } from './state-picture';
import { statesHead } from './state-tables';
import { visibleText } from './visible-text';
import type { View } from './view';

/** Every row, whatever the height of the view and however it is scrolled. */
export function drawSheet(scene: Scene, view: View): Picture {
  const { data } = scene;
  const picture = drawPicture(scene, { ...view, height: Number.POSITIVE_INFINITY, scroll: 0 });
  const above = textBlock(headOf(data, view), { top: border, width: picture.width });
  const shift = above.bottom + gap;
  const states = statesBlock(data, { top: shift + picture.height + gap, width: picture.width });
  const below = textBlock(footOf(data), { top: states.bottom + gap, width: picture.width });
  const height = below.bottom + border;
  return {
    width: Math.max(picture.width, states.width),
    height,
    totalHeight: height,
    rows: picture.rows.map((row) => ({ ...row, top: row.top + shift })),
    shapes: [
      ...picture.shapes.map((shape) => lowered(shape, shift)),
      ...above.shapes,
      ...states.shapes,
      ...below.shapes,
    ],
  };
}

/** The steps between states, each under its sentence; of what has too many, the sentence. */
function statesBlock(
  { states }: PreviewData,
  { top, width }: { readonly top: number; readonly width: number },
): { readonly shapes: readonly Shape[]; readonly bottom: number; readonly width: number } {
  const shapes: Shape[] = [];
  let bottom = top;
  let widest = 0;
  for (const each of states) {
    const head = textBlock(notes([statesHead(each)]), { top: bottom + gap, width });
    const drawn = drawStates(each);
    shapes.push(...head.shapes, ...(drawn?.shapes ?? []).map((shape) => lowered(shape, head.bottom)));
    bottom = head.bottom + (drawn?.height ?? 0);
    widest = Math.max(widest, drawn?.width ?? 0);
  }
  return { shapes, bottom, width: widest };
}

interface SheetLine {
  readonly text: string;
  readonly face: 'title' | 'note';
}

const border = 14;
const gap = 10;
const lineHeight = { title: 24, note: 16 } as const;

function headOf(data: PreviewData, { from, to }: View): readonly SheetLine[] {
  const isPart = from > 0 || to < data.end;
  const part = isPart ? [`shown from ${timeWords(Math.floor(from))} to ${timeWords(Math.ceil(to))}`] : [];
  const asked = data.whatIf?.asked.map(({ words }) => `in dashes: ${words}`) ?? [];
  return [
    { text: data.top ?? 'no design', face: 'title' },
    ...notes([...data.headline, ...driveLines(data), ...asked, ...part]),
  ];
}

/** One line per signal that is driven; what nobody stated says so. */
function driveLines({ drive: { clocks, inputs, resets } }: PreviewData): readonly string[] {
  const ifAssumed = (source: string) => (source === 'given' || source === 'text' ? '' : ' (assumed)');
  return [
    ...clocks.map(({ high, highSource, period, phase, phaseSource, signal, source }) => {
      const length = typeof period === 'number' ? timeWords(period) : `${period} ps`;
      return [
        `${signal}: period ${length}${ifAssumed(source)}`,
        `high for ${timeWords(high)}${ifAssumed(highSource)}`,
        `first rise at ${timeWords(phase)}${ifAssumed(phaseSource)}`,
      ].join(', ');
    }),
    ...resets.map(
      ({ active, activeSource, periods, periodsSource, signal }) =>
        `${signal}: active ${active}${ifAssumed(activeSource)} for ${periods} periods${ifAssumed(periodsSource)}`,
    ),
    ...inputs.map(({ moves, signal, source, value }) => {
      const how = moves === null ? `held at ${value}` : `${value} at first, moves as stated`;
      return `${signal}: ${how}${ifAssumed(source)}`;
    }),
  ];
}

function footOf({ assumptions, cautions, cut, foretick, traces, whatIf }: PreviewData): readonly SheetLine[] {
  const { answer = [], refused = null } = whatIf ?? {};
  return notes([
    ...(refused === null ? answer : [`what if: ${refused}`]),
    ...(traces.some(({ settling }) => settling.length > 0) ? [settlingCaption] : []),
    ...(cut === null ? [] : [cut]),
    ...assumptions.map(({ about, reason, source }) =>
      source === 'text' ? `${about}: ${reason}` : `assumed about ${about}: ${reason}`,
    ),
    ...cautions,
    `drawn by Foretick ${foretick}`,
  ]);
}

function notes(lines: readonly string[]): readonly SheetLine[] {
  return lines.map((text) => ({ text, face: 'note' }));
}

function textBlock(
  lines: readonly SheetLine[],
  { top, width }: { readonly top: number; readonly width: number },
): { readonly shapes: readonly Shape[]; readonly bottom: number } {
  let bottom = top;
  const shapes = lines.flatMap(({ face, text }) =>
    wrap(text, face, width - 2 * border).map((part): Shape => {
      bottom += lineHeight[face];
      return { kind: 'text', role: 'text', x: border, y: bottom - 4, anchor: 'start', face, text: part };
    }),
  );
  return { shapes, bottom };
}

/** At spaces; a word that is longer than a line is broken where the line ends. */
function wrap(text: string, face: SheetLine['face'], width: number): readonly string[] {
  const most = Math.max(8, Math.floor(width / textWidth('m', face)));
  const lines: string[] = [];
  let line = '';
  for (const word of visibleText(text)
    .split(/\s+/)
    .flatMap((each) => pieces(each, most))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (longer.length <= most) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function pieces(word: string, most: number): readonly string[] {
  const characters = [...word];
  const count = Math.max(1, Math.ceil(characters.length / most));
  return Array.from({ length: count }, (_, index) => characters.slice(index * most, (index + 1) * most).join(''));
}

function lowered(shape: Shape, by: number): Shape {
  if (shape.kind !== 'path') return { ...shape, y: shape.y + by };
  return { ...shape, points: shape.points.map((value, index) => (index % 2 === 0 ? value : value + by)) };
}
