// The picture of small previews: what stands where, what it says, and that nothing is told by color alone.
import { describe, expect, it } from 'vitest';
import { drawPicture } from '../../server/src/drawing/picture';
import { laneOf, type Row, rowsOf, totalHeight } from '../../server/src/drawing/rows';
import { sceneOf } from '../../server/src/drawing/scene';
import { characterWidth, type Shape, textWidth } from '../../server/src/drawing/shape';
import { axisHeight, handoutView, openingView, type View, xOf } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { previewOf, rippleOfTwo, toggles, traceOf } from './previews';

function draw(data: PreviewData, more: Partial<View> = {}) {
  const scene = sceneOf(data);
  const view: View = { ...handoutView(data), ...more };
  return { scene, view, ...drawPicture(scene, view) };
}

function textsOf(shapes: readonly Shape[]): readonly string[] {
  return shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
}

function rowOf(rows: readonly Row[], trace: number): Row {
  const row = rows.find((each) => each.kind === 'trace' && each.trace === trace);
  if (row === undefined) throw new Error(`trace ${trace} has no row`);
  return row;
}

/** Of a wave: its corners in the lane of a row. */
function waveIn(shapes: readonly Shape[], row: Row): readonly number[] {
  const lane = laneOf(row);
  const inLane = (y: number) => y >= lane.high && y <= lane.low;
  const wave = shapes.find((shape) => shape.kind === 'path' && shape.role === 'line' && shape.points.some(inLane));
  return wave?.kind === 'path' ? wave.points : [];
}

describe('rows', () => {
  const names = (data: PreviewData, unfolded: readonly number[]) =>
    rowsOf(sceneOf(data), { ...handoutView(data), unfolded: new Set(unfolded) }).map((row) => {
      if (row.kind === 'trace') return data.traces[row.trace].name;
      return row.kind === 'group' ? `(${data.groups[row.group].name})` : row.kind;
    });

  it('are groups, traces, bits of what is unfolded, and the sequence under its vector', () => {
    expect(names(rippleOfTwo(), [1])).toEqual(['(clk)', 'clk', 'q[1:0]', 'caption', 'q[1]', 'q[0]', '(null)', 'pin']);
    expect(names(rippleOfTwo(), [])).toEqual(['(clk)', 'clk', 'q[1:0]', 'caption', '(null)', 'pin']);
  });

  it('hold a reading of several signals below the last of its bits', () => {
    const reading = { name: 'a b', bits: ['b', 'a'], after: 1, group: 0, stretches: [], caption: '', count: null };
    const data = previewOf({ traces: [traceOf('a'), traceOf('b'), traceOf('c')], readings: [reading] });
    expect(names(data, [])).toEqual(['(clk)', 'a', 'b', 'reading', 'c']);
  });

  it('stand one below the other, and scroll under the axis', () => {
    const scene = sceneOf(rippleOfTwo());
    const view = openingView(scene.data, { width: 900, height: 400 });
    const rows = rowsOf(scene, view);
    expect(rows[0].top).toBe(axisHeight);
    for (const [index, row] of rows.entries()) {
      if (index > 0) expect(row.top).toBe(rows[index - 1].top + rows[index - 1].height);
    }
    expect(rowsOf(scene, { ...view, scroll: 55 })[0].top).toBe(axisHeight - 55);
    expect(totalHeight(rowsOf(scene, { ...view, scroll: 55 }))).toBe(totalHeight(rows));
  });
});

describe('a bit', () => {
  it('runs at the top for 1 and at the bottom for 0, and turns where it changes', () => {
    const { rows, shapes, view } = draw(previewOf({ traces: [traceOf('q', { changes: toggles([250, 750]) })] }));
    const { high, low } = laneOf(rowOf(rows, 0));
    const [start, rise, fall, end] = [0, 250, 750, 1000].map((time) => xOf(view, time));
    expect(waveIn(shapes, rowOf(rows, 0))).toEqual([
      start,
      low,
      rise,
      low,
      rise,
      high,
      fall,
      high,
      fall,
      low,
      end,
      low,
    ]);
  });

  it('that is unknown has a texture and the letter x; that is released runs mid-level with the letter z', () => {
    const changes = { at: [500], value: ['z'], link: [0] };
    const { rows, shapes } = draw(previewOf({ traces: [traceOf('q', { start: 'x', changes })] }));
    const { high, low } = laneOf(rowOf(rows, 0));
    expect(shapes).toContainEqual(expect.objectContaining({ kind: 'texture', pattern: 'unknown' }));
    expect(textsOf(shapes)).toEqual(expect.arrayContaining(['x', 'z']));
    expect(waveIn(shapes, rowOf(rows, 0)).slice(-1)).toEqual([(high + low) / 2]);
  });

  it('of a million changes makes no more shapes and corners than pixels ask for', () => {
    const at = Array.from({ length: 1_000_000 }, (_, index) => index + 1);
    const { shapes, view } = draw(previewOf({ end: 1_000_001, traces: [traceOf('q', { changes: toggles(at) })] }));
    const corners = shapes.reduce((sum, shape) => sum + (shape.kind === 'path' ? shape.points.length : 1), 0);
    expect(corners).toBeLessThan(8 * view.width);
  });
});

describe('a vector', () => {
  it('writes its values in the radix asked for, where they fit', () => {
    const changes = { at: [500, 505], value: ['1010', '1111'], link: [0, 1] };
    const data = previewOf({ traces: [traceOf('q[3:0]', { width: 4, start: '0000', changes })] });
    expect(textsOf(draw(data, { unfolded: new Set() }).shapes)).toEqual(expect.arrayContaining(['0', '15']));
    expect(textsOf(draw(data, { radix: 'hexadecimal' }).shapes)).toEqual(expect.arrayContaining(['0', 'F']));
    expect(textsOf(draw(data, { radix: 'binary' }).shapes)).toEqual(expect.arrayContaining(['0000', '1111']));
    expect(textsOf(draw(data).shapes)).not.toContain('10');
    expect(textsOf(draw(data, { from: 499, to: 507 }).shapes)).toContain('10');
  });

  it('is hatched where its reading is not settled', () => {
    const { shapes, view } = draw(rippleOfTwo());
    const gaps = shapes.flatMap((shape) => (shape.kind === 'texture' && shape.pattern === 'moving' ? [shape] : []));
    expect(gaps.map(({ width, x }) => [x, x + width])).toEqual([[xOf(view, 210), xOf(view, 220)]]);
  });

  it('shows which bit of it is unknown', () => {
    const data = previewOf({ traces: [traceOf('q[3:0]', { width: 4, start: '000x' })] });
    expect(textsOf(draw(data).shapes)).toContain('000x');
  });
});

describe('marks', () => {
  const glitch = (at: number, more: object = {}) => ({
    trace: 0,
    at,
    until: at + 5,
    certainty: 'certain' as const,
    harmless: false,
    pulse: { min: 5, typ: 5, max: 5 },
    from: '7',
    to: '8',
    words: '',
    ...more,
  });
  const marksOf = (data: PreviewData) =>
    draw(data).shapes.flatMap((shape) => (shape.kind === 'mark' ? [shape.form] : []));

  it('of a certain pulse are filled and tell its width; of a possible one an outline and the word', () => {
    const glitches = [glitch(200), glitch(600, { certainty: 'possible', until: 600 })];
    const data = previewOf({ traces: [traceOf('y')], glitches });
    expect(marksOf(data)).toEqual(['pointer', 'open-pointer']);
    expect(textsOf(draw(data).shapes)).toEqual(expect.arrayContaining(['5 ps', 'possible']));
  });

  it('that crowd are one for those that cannot be told apart', () => {
    const glitches = Array.from({ length: 50_000 }, (_, index) => glitch(index * 20, { until: index * 20 + 10 }));
    const data = previewOf({ end: 1_000_000, traces: [traceOf('y')], glitches });
    expect(marksOf(data).length).toBeGreaterThan(10);
    expect(marksOf(data).length).toBeLessThan(200);
  });

  it('say by a question mark where a value is in doubt', () => {
    const doubts = [{ at: 400, words: 'a race' }];
    expect(textsOf(draw(previewOf({ traces: [traceOf('q', { doubts })] })).shapes)).toContain('?');
  });
});

describe('the focus', () => {
  const threadsOf = (shapes: readonly Shape[]) =>
    shapes.flatMap((shape) => (shape.kind === 'path' && shape.role === 'thread' ? [shape.points] : []));

  it('is joined by threads to the change that caused it and on to the drive', () => {
    const { rows, shapes, view } = draw(rippleOfTwo(), { focus: { trace: 2, change: 0 }, unfolded: new Set([1]) });
    const middle = (trace: number) => (laneOf(rowOf(rows, trace)).high + laneOf(rowOf(rows, trace)).low) / 2;
    expect(threadsOf(shapes)).toEqual([
      [xOf(view, 210), middle(3), xOf(view, 220), middle(2)],
      [xOf(view, 200), middle(0), xOf(view, 210), middle(3)],
    ]);
  });

  it('rests on the vector where the bits are folded away', () => {
    const { rows, shapes, view } = draw(rippleOfTwo(), { focus: { trace: 1, change: 2 }, unfolded: new Set() });
    const y = (laneOf(rowOf(rows, 1)).high + laneOf(rowOf(rows, 1)).low) / 2;
    expect(threadsOf(shapes)[0]).toEqual([xOf(view, 210), y, xOf(view, 220), y]);
  });

  it('has a ring, and no thread out of the window', () => {
    const { shapes } = draw(rippleOfTwo(), { focus: { trace: 1, change: 2 }, from: 215, to: 230 });
    expect(shapes).toContainEqual(expect.objectContaining({ kind: 'box', role: 'focus', filled: false }));
    expect(threadsOf(shapes)).toEqual([]);
  });
});

describe('what is seen', () => {
  const many = previewOf({ traces: Array.from({ length: 5000 }, (_, index) => traceOf(`q[${index}]`)) });

  it('alone is drawn of many rows', () => {
    const { height, shapes, totalHeight: whole } = draw(many, { height: 600, scroll: 60_000 });
    expect(shapes.length).toBeLessThan(150);
    expect(height).toBe(600);
    expect(whole).toBeGreaterThan(150_000);
  });

  it('never lets a name run into the waves, however long or deep', () => {
    const traces = [0, 3, 40].map((indent) => traceOf('deep.'.repeat(30), { indent, note: 'n'.repeat(90) }));
    for (const shape of draw(previewOf({ traces })).shapes) {
      if (shape.kind !== 'text' || shape.anchor !== 'start') continue;
      const end = shape.x + textWidth(shape.text, shape.face);
      expect(end).toBeLessThanOrEqual(shape.face === 'name' ? 190 : 1200);
    }
  });

  it('has instants on the axis that do not overlap, at any zoom', () => {
    for (const [from, to] of [
      [0, 1e12],
      [0, 365_000],
      [123_456, 123_470],
      [0, 7],
      [5e9, 5e9 + 3e6],
    ]) {
      const axis = draw(previewOf({ end: 1e12 }), { from, to }).shapes.flatMap((shape) =>
        shape.kind === 'text' ? [shape] : [],
      );
      expect(axis.length).toBeGreaterThan(0);
      for (const [index, { text, x }] of axis.entries()) {
        const next = axis[index + 1];
        if (next === undefined) continue;
        expect(x + (text.length * characterWidth.note) / 2).toBeLessThanOrEqual(
          next.x - (next.text.length * characterWidth.note) / 2,
        );
      }
    }
  });

  it('is the same for the same input', () => {
    expect(draw(rippleOfTwo()).shapes).toEqual(draw(rippleOfTwo()).shapes);
  });
});
