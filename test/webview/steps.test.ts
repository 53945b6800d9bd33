// The keyboard: from one view to the next, and what the account says of the edge one arrives at.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rowsOf } from '../../server/src/drawing/rows';
import { sceneOf } from '../../server/src/drawing/scene';
import { axisHeight, openingView, type View } from '../../server/src/drawing/view';
import { accountLines } from '../../webview/src/accounts';
import { type Step, stepOfKey, take } from '../../webview/src/steps';
import { previewOf, rippleOfTwo, toggles, traceOf } from '../drawing/previews';

const scene = sceneOf(rippleOfTwo());
const opening = openingView(scene.data, { width: 900, height: 400 });
type Taken = Parameters<typeof take>[0];

function walk(view: View, ...steps: readonly Taken[]): View {
  return steps.reduce((at, step) => take(step, scene, at), view);
}

/** Where one is, as a person would say it. */
function placeOf({ focus }: View): string {
  if (focus === null) return 'nowhere';
  const { changes, name } = scene.data.traces[focus.trace];
  return focus.change < 0 ? `${name} start` : `${name} ${changes.at[focus.change]}`;
}

describe('arrow keys', () => {
  it('begin at the first trace, and step edge by edge to both ends', () => {
    expect(placeOf(walk(opening, 'next-edge'))).toBe('clk start');
    expect(placeOf(walk(opening, 'next-edge', 'next-edge', 'next-edge'))).toBe('clk 100');
    expect(placeOf(walk(opening, 'next-edge', 'next-edge', 'previous-edge', 'previous-edge'))).toBe('clk start');
    expect(placeOf(walk(opening, ...Array.from({ length: 9 }, (): Taken => 'next-edge')))).toBe('clk 200');
  });

  it('go from trace to trace at the same time, past what is folded away', () => {
    const edge = { ...opening, focus: { trace: 0, change: 3 } };
    expect(placeOf(walk(edge, 'next-trace'))).toBe('q[1:0] 110');
    expect(placeOf(walk(edge, 'next-trace', 'next-trace'))).toBe('q[1] start');
    const folded = { ...edge, unfolded: new Set<number>() };
    expect(placeOf(walk(folded, 'next-trace', 'next-trace'))).toBe('pin start');
    expect(placeOf(walk(edge, 'previous-trace'))).toBe('clk 200');
  });
});

describe('the cause', () => {
  it('is gone to step by step, as far as the drive', () => {
    const edge = { ...opening, focus: { trace: 2, change: 0 } };
    expect(placeOf(edge)).toBe('q[1] 220');
    expect(placeOf(walk(edge, 'cause'))).toBe('q[0] 210');
    expect(placeOf(walk(edge, 'cause', 'cause'))).toBe('clk 200');
    expect(placeOf(walk(edge, 'cause', 'cause', 'cause'))).toBe('clk 200');
  });

  it('is brought into the window', () => {
    const near = { ...opening, from: 215, to: 225, focus: { trace: 2, change: 0 } };
    const { from, to } = walk(near, 'cause');
    expect(from <= 210 && to >= 210 && to - from === 10).toBe(true);
  });
});

describe('folding', () => {
  it('takes the focus of a bit to its vector at the same time, and back does not lose it', () => {
    const edge = { ...opening, focus: { trace: 3, change: 1 } };
    const folded = walk(edge, 'fold');
    expect([...folded.unfolded]).toEqual([]);
    expect(placeOf(folded)).toBe('q[1:0] 210');
    expect([...walk(folded, 'fold').unfolded]).toEqual([1]);
  });
});

describe('the window', () => {
  it('never leaves the run, whatever is pressed', () => {
    const steps = [...new Set(Object.values(stepOfKey))].filter(
      (step): step is Taken => step !== ('back' satisfies Step),
    );
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...steps), { maxLength: 60 }), (pressed) => {
        const { from, to } = walk(opening, ...pressed);
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeLessThanOrEqual(scene.data.end + 1e-6);
        expect(to).toBeGreaterThan(from);
      }),
    );
  });

  it('zooms about the edge in focus', () => {
    const edge = { ...opening, focus: { trace: 2, change: 0 } };
    const share = ({ from, to }: View) => (220 - from) / (to - from);
    expect(share(walk(edge, 'zoom-in'))).toBeCloseTo(share(edge), 9);
    expect(walk(edge, 'zoom-in', 'fit')).toMatchObject({ from: 0, to: 300 });
  });

  it('scrolls to the trace in focus', () => {
    const tall = sceneOf(
      previewOf({ traces: Array.from({ length: 90 }, (_, index) => traceOf(`t${index}`, { changes: toggles([5]) })) }),
    );
    let view = openingView(tall.data, { width: 900, height: 300 });
    for (let step = 0; step < 60; step += 1) view = take('next-trace', tall, view);
    const row = rowsOf(tall, view).find((each) => each.kind === 'trace' && each.trace === 59);
    expect(row !== undefined && row.top >= axisHeight && row.top + row.height <= 300).toBe(true);
  });

  it('of an empty preview takes every key', () => {
    const empty = sceneOf(previewOf({ end: 0, groups: [] }));
    for (const step of Object.values(stepOfKey)) {
      if (step !== 'back')
        expect(take(step, empty, openingView(empty.data, { width: 900, height: 300 })).focus).toBeNull();
    }
  });
});

describe('the account', () => {
  const wordsAt = (trace: number, change: number) =>
    accountLines(scene, { ...opening, focus: { trace, change } }).map(({ kind, words }) => `${kind}: ${words}`);

  it('tells the edge and its causes up to the drive', () => {
    expect(wordsAt(2, 0)).toEqual([
      'edge: q[1] moved at 220 ps',
      'cause: q[0] moved at 210 ps',
      'cause: clk moved at 200 ps',
    ]);
  });

  it('of a vector tells the value first', () => {
    expect(wordsAt(1, 2).slice(0, 2)).toEqual(['edge: q[1:0] is 2 from 220 ps', 'cause: q[1] moved at 220 ps']);
  });

  it('of a start tells its value, and why edges after it changed nothing', () => {
    expect(wordsAt(1, -1)).toEqual([
      'edge: q[1:0] starts at 0',
      'held: at 100 ps q[1:0] kept its value because rst holds it',
    ]);
  });

  it('tells of the pulse that the edge is part of', () => {
    const glitch = {
      at: 110,
      until: 210,
      certainty: 'certain',
      harmless: false,
      from: '',
      to: '',
      words: 'a pulse',
    } as const;
    const pulse = { min: 1, typ: 1, max: 1 };
    const marked = sceneOf({ ...scene.data, glitches: [{ ...glitch, pulse, trace: 3 }] });
    const lines = accountLines(marked, { ...opening, focus: { trace: 3, change: 0 } });
    expect(lines.map(({ kind }) => kind)).toEqual(['edge', 'cause', 'pulse']);
    expect(accountLines(marked, { ...opening, focus: null })).toEqual([]);
  });
});
