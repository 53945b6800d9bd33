// The cutting that a hover shows: which rows, which stretch of time, and colors that are seen on any ground.
import { describe, expect, it } from 'vitest';
import type { Picture } from '../../server/src/drawing/picture';
import { drawSmall, tracesOf } from '../../server/src/drawing/small-picture';
import { anyGround, svgOf } from '../../server/src/drawing/svg';
import type { PreviewData } from '../../server/src/report/preview-data';
import { previewOf, span, toggles, traceOf } from './previews';

const every = (step: number, count: number) => Array.from({ length: count }, (_, index) => (index + 1) * step);
const clock = traceOf('clk', { kind: 'clock', changes: toggles(every(10, 200)) });
const clockedBy = (signal: string) => ({ clock: { signal, edge: 'rising', span } as const });

function written(picture: Picture | null): readonly string[] {
  return (picture?.shapes ?? []).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
}

function small(data: PreviewData, signal: string): Picture {
  const picture = drawSmall(data, signal);
  if (picture === null) throw new Error(`no picture of ${signal}`);
  return picture;
}

describe('the small picture', () => {
  const slow = traceOf('q', { ...clockedBy('clk'), changes: toggles(every(80, 10)) });
  const data = previewOf({ end: 2_000, traces: [clock, slow, traceOf('other')] });

  it('has the signal under its clock and nothing else', () => {
    const names = small(data, 'q').rows.flatMap((row) => (row.kind === 'trace' ? [row.trace] : []));
    expect(names).toHaveLength(2);
    expect(written(small(data, 'q'))).toContain('q');
    expect(written(small(data, 'q'))).toContain('clk');
    expect(written(small(data, 'q'))).not.toContain('other');
  });

  it('of a clock is the clock alone, of an unknown signal nothing', () => {
    expect(small(data, 'clk').rows.filter(({ kind }) => kind === 'trace')).toHaveLength(1);
    expect(drawSmall(data, 'nobody')).toBeNull();
    expect(drawSmall(previewOf(), 'q')).toBeNull();
  });

  it('takes bits that are clocked apart together, up to six rows', () => {
    const bits = Array.from({ length: 9 }, (_, bit) =>
      traceOf(`n[${bit}]`, clockedBy(bit === 0 ? 'clk' : `n[${bit - 1}]`)),
    );
    const ripple = previewOf({ end: 2_000, traces: [clock, ...bits] });
    expect(tracesOf(ripple, 'n')).toHaveLength(9);
    expect(small(ripple, 'n').rows.filter(({ kind }) => kind === 'trace')).toHaveLength(6);
    expect(tracesOf(ripple, 'n[3]')).toEqual([4]);
  });

  it('ends a little behind the last change', () => {
    // The last change of q is at 800; the clock's period is 20.
    const times = written(small(data, 'q')).flatMap((text) => /^(\d+) ps$/.exec(text)?.[1] ?? []);
    const last = Math.max(...times.map(Number));
    expect(last).toBeGreaterThanOrEqual(750);
    expect(last).toBeLessThanOrEqual(830);
  });

  it('is small, however long the run', () => {
    const busy = previewOf({
      end: 2_000_000,
      traces: [
        traceOf('clk', { kind: 'clock', changes: toggles(every(10, 200_000)) }),
        traceOf('q', { ...clockedBy('clk'), changes: toggles([5, 1_999_999]) }),
      ],
    });
    expect(svgOf(small(busy, 'q'), 'q', anyGround).length).toBeLessThan(20_000);
  });

  it('of a signal that never changes shows the beginning', () => {
    expect(written(small(data, 'other'))).toContain('0 ns');
  });
});

/** WCAG 2.1, "contrast ratio" and "relative luminance". */
function contrast(left: string, right: string): number {
  const [dark, light] = [luminance(left), luminance(right)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(color: string): number {
  const [red, green, blue] = [1, 3, 5]
    .map((start) => Number.parseInt(color.slice(start, start + 2), 16) / 255)
    .map((part) => (part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

describe('colors for any ground', () => {
  it('are seen on white, on black and on the grays between which editors choose', () => {
    const strokes = Object.values(anyGround).filter((color) => color !== 'none');
    expect(strokes.length).toBeGreaterThan(6);
    for (const ground of ['#ffffff', '#f3f3f3', '#252526', '#1e1e1e', '#000000']) {
      for (const color of strokes) expect(contrast(color, ground), `${color} on ${ground}`).toBeGreaterThan(3);
    }
  });
});
