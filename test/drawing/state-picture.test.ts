// The diagram and the table of states: each step once, straight on, ahead over the row, back under it; nothing overlaps,
// nothing is drawn that nobody reads.
import { describe, expect, it } from 'vitest';
import { drawStates } from '../../server/src/drawing/state-picture';
import { statesHead, statesTable } from '../../server/src/drawing/state-tables';
import { plainSvgOf } from '../../server/src/drawing/svg';
import type { PreviewStates } from '../../server/src/report/preview-data';
import { span } from './previews';

/** Steps of each state, by number. */
function statesOf(
  next: readonly (readonly (readonly [number, string])[])[],
  more: Partial<PreviewStates> = {},
): PreviewStates {
  return {
    registers: ['s[1:0]'],
    width: 2,
    method: 'followed',
    sure: 'for sure',
    start: '0',
    states: next.map((steps, value) => ({
      value: String(value),
      name: `S${value}`,
      next: steps.map(([to, when]) => ({ to: String(to), when })),
    })),
    statesTotal: next.length,
    unused: [],
    unusedTotal: 0,
    words: 'all',
    sequence: '',
    count: null,
    why: null,
    span,
    ...more,
  };
}

const three = statesOf([
  [
    [1, 'go'],
    [0, 'not go'],
  ],
  [
    [2, ''],
    [0, 'back'],
  ],
  [[0, '']],
]);
const textsOf = (data: PreviewStates) =>
  (drawStates(data)?.shapes ?? []).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

describe('the diagram', () => {
  it('names each state once, and each condition where its step is', () => {
    expect(textsOf(three).sort()).toEqual(['S0 0', 'S1 1', 'S2 2', 'back', 'go', 'start']);
  });

  it('keeps everything inside, and boxes apart', () => {
    const picture = drawStates(three);
    const boxes = (picture?.shapes ?? []).flatMap((shape) => (shape.kind === 'box' ? [shape] : []));
    expect(boxes).toHaveLength(3);
    for (const [index, box] of boxes.entries()) {
      expect(box.x + box.width).toBeLessThan(boxes[index + 1]?.x ?? picture?.width ?? 0);
      expect(box.y + box.height).toBeLessThan(picture?.height ?? 0);
    }
  });

  it('leads steps back on tracks that do not meet', () => {
    const tracks = (drawStates(three)?.shapes ?? []).flatMap((shape) =>
      shape.kind === 'path' && shape.points.length === 8 ? [shape.points[3]] : [],
    );
    // A hook above the box, and two ways back to the start below it: each at a height of its own.
    expect(new Set(tracks).size).toBe(3);
  });

  it('draws what is never reached in dashes, with what becomes of it', () => {
    const lost = { value: '3', name: null, fate: 'trapped', within: null, to: ['3'], words: 'never returns' } as const;
    const data = { ...three, unused: [lost], unusedTotal: 1 };
    expect(textsOf(data)).toContain('never returns');
    expect(drawStates(data)?.shapes.filter((shape) => shape.kind === 'path' && shape.dashed)).toHaveLength(1);
  });

  it('is left out where there are too many states, and where nothing is told', () => {
    expect(drawStates(statesOf(Array.from({ length: 25 }, () => [])))).toBeNull();
    expect(drawStates({ ...three, states: [], statesTotal: 0, why: 'no reason' })).toBeNull();
  });

  it('is the ink of the page, without names that two of them would share', () => {
    const picture = drawStates(three);
    const svg = picture === null ? '' : plainSvgOf(picture, 'steps');
    expect(svg).toContain('stroke="currentColor"');
    expect(svg).not.toContain(' id=');
    expect(svg).not.toMatch(/#[0-9a-f]{3}/);
  });
});

describe('the table', () => {
  it('says each step with its condition', () => {
    expect(statesTable(three, 10).rows).toEqual([
      ['S0 (0)', 'S1 when go; S0 when not go', 'start'],
      ['S1 (1)', 'S2; S0 when back', ''],
      ['S2 (2)', 'S0', ''],
    ]);
  });

  it('counts what it cuts', () => {
    expect(statesTable(three, 2).rows.at(-1)).toEqual(['and 1 more', '', '']);
  });

  it('gives the reason where nothing is told', () => {
    expect(statesHead({ ...three, why: 'it is too wide' })).toBe('s[1:0]: not told, it is too wide');
  });
});
