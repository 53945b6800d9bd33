// The handout: the picture, and around it what it rests on; nothing runs off the paper.
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../server/src/drawing/scene';
import { drawSheet } from '../../server/src/drawing/sheet';
import { type Shape, textWidth } from '../../server/src/drawing/shape';
import { svgOf } from '../../server/src/drawing/svg';
import { openingView } from '../../server/src/drawing/view';
import { rippleOfTwo, span } from './previews';

const data = {
  ...rippleOfTwo(),
  headline: ['clk 10 GHz, acts on its falling edge', 'start 0', 'delays: unit'],
  drive: {
    clocks: [
      {
        signal: 'clk',
        period: 100,
        high: 50,
        phase: 50,
        source: 'setting' as const,
        highSource: 'setting' as const,
        phaseSource: 'given' as const,
      },
    ],
    resets: [
      {
        signal: 'rst',
        active: 'low' as const,
        periods: 2,
        source: 'given' as const,
        activeSource: 'given' as const,
        periodsSource: 'given' as const,
      },
    ],
    inputs: [{ signal: 'pin', value: '0', source: 'inferred' as const, moves: null }],
  },
  assumptions: [
    {
      about: 'clk',
      value: '100 ps',
      source: 'setting' as const,
      reason: 'no period of clk is stated'.repeat(12),
      span,
    },
  ],
  cautions: ['wires are not seen'],
};
const view = openingView(data, { width: 700, height: 100 });
const sheet = drawSheet(sceneOf(data), { ...view, scroll: 40 });
const texts = sheet.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []));

describe('the sheet', () => {
  it('says drive, delay set, assumptions and cautions', () => {
    const words = texts.map(({ text }) => text).join('\n');
    expect(words).toContain('delays: unit');
    expect(words).toContain('clk: period 100 ps (assumed), high for 50 ps (assumed), first rise at 50 ps');
    expect(words).toContain('rst: active low for 2 periods');
    expect(words).not.toContain('rst: active low for 2 periods (assumed)');
    expect(words).toContain('pin: held at 0 (assumed)');
    expect(words).toContain('assumed about clk: no period of clk is stated');
    expect(words).toContain('wires are not seen');
  });

  it('holds every row, whatever was scrolled away', () => {
    const names = texts.map(({ text }) => text);
    for (const { name } of data.traces) expect(names.some((text) => text.endsWith(name))).toBe(true);
    expect(Math.min(...sheet.rows.map(({ top }) => top))).toBeGreaterThan(0);
  });

  it('writes nothing beyond its edges, and no line on another', () => {
    for (const shape of texts) expect(rightEnd(shape)).toBeLessThanOrEqual(sheet.width);
    const lines = texts.filter(({ x }) => x === 14).map(({ y }) => y);
    expect(new Set(lines).size).toBe(lines.length);
    expect(Math.max(...texts.map(({ y }) => y))).toBeLessThan(sheet.height);
  });

  it('says which part of the run it shows', () => {
    const part = drawSheet(sceneOf(data), { ...view, from: 100, to: 200 });
    expect(svgOf(part, 'top')).toContain('shown from 100 ps to 200 ps');
    expect(svgOf(sheet, 'top')).not.toContain('shown from');
  });
});

function rightEnd({ anchor, face, text, x }: Shape & { kind: 'text' }): number {
  const width = textWidth(text, face);
  return anchor === 'start' ? x + width : anchor === 'middle' ? x + width / 2 : x;
}
