// The preview's model on circuits by hand: traces, links, readings, what was held, glitch marks.
import { describe, expect, it } from 'vitest';
import { buildPreview } from '../../server/src/report/build-preview';
import type { PreviewData, PreviewTrace } from '../../server/src/report/preview-data';
import { writePreviewText } from '../../server/src/report/write-preview-text';
import { finish } from '../predict/timed';
import { circuit } from '../tools/circuit';
import { designOf, type Hand, previewRunOf } from './design';
import { ripple } from './ripple';

function preview(netlist: ReturnType<typeof ripple>, until: number, hand: Hand = {}): PreviewData {
  const design = designOf(netlist, hand);
  return finish(buildPreview(design, previewRunOf(design, until), { findings: [], review: [], states: [] }));
}

function trace({ traces }: PreviewData, name: string): PreviewTrace {
  const found = traces.find((candidate) => candidate.name === name);
  if (found === undefined) throw new Error(`no trace ${name}`);
  return found;
}

const wave = ({ changes, start }: PreviewTrace) =>
  [start, ...changes.at.map((at, index) => `${at}:${changes.value[index]}`)].join(' ');

describe('the preview of a two-stage ripple', () => {
  const data = preview(ripple(2), 100_000);

  it('has its traces in the order they are drawn: root, stages, outputs', () => {
    expect(data.groups.map(({ name }) => name)).toEqual(['clk', null]);
    expect(data.traces.map(({ group, indent, kind, name, note }) => [group, name, kind, indent, note])).toEqual([
      [0, 'clk', 'clock', 0, '50 MHz'],
      [0, 'q[0]', 'register', 1, 'stage 1, +1 ns'],
      [0, 'q[1]', 'register', 2, 'stage 2, +2 ns'],
      [0, 'zero', 'output', 0, ''],
    ]);
  });

  it('has every change with the link that made it', () => {
    expect(wave(trace(data, 'q[1]'))).toBe('0 42000:1 82000:0');
    const [first] = trace(data, 'q[1]').changes.link;
    expect(data.links[first].words).toMatch(
      /^q\[1\] rose at 42 ns because its clock q\[0\] fell at 41 ns \(line \d+\)$/,
    );
    const cause = data.links[data.links[first].cause];
    expect(cause).toMatchObject({ signal: 'q[0]', at: 41_000, before: '1', after: '0', kind: 'sampled' });
    expect(data.links[cause.cause]).toMatchObject({ signal: 'clk', at: 40_000, cause: -1, kind: 'drive' });
    for (const [index, link] of data.links.entries()) expect(link.cause).toBeLessThan(index);
  });

  it('has a reading with a gap while bits move', () => {
    const [reading] = data.readings;
    expect(reading).toMatchObject({ name: 'q', bits: ['q[1]', 'q[0]'], group: 0, after: 2, count: 0 });
    expect(reading.caption).toBe('counts up, modulo 4; passes 0 on the way from 1 to 2');
    expect(reading.stretches.slice(0, 5)).toEqual([
      { from: 0, to: 21_000, value: '00' },
      { from: 21_000, to: 41_000, value: '01' },
      { from: 41_000, to: 42_000, value: null },
      { from: 42_000, to: 61_000, value: '10' },
      { from: 61_000, to: 81_000, value: '11' },
    ]);
    expect(reading.stretches.at(-1)?.to).toBe(data.end);
  });

  it('has the root edges that registers follow', () => {
    expect(data.groups[0].rootEdges).toEqual([20_000, 40_000, 60_000, 80_000]);
    expect(data.headline[0]).toBe('clk 50 MHz, acts on its falling edge');
  });

  it('reads as text by cause', () => {
    const text = writePreviewText(data);
    expect(text).toMatch(/40 ns {2}clk fell\n {2}41 ns {2}q\[0\] fell \(line \d+\)\n(.*\n)* {4}42 ns {2}q\[1\] rose/);
    expect(text).toContain('not seen');
  });

  it('is plain data', () => {
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
  });
});

describe('vectors, inputs and held edges', () => {
  const made = circuit('held');
  const [clk, en] = ['clk', 'en'].map((name) => made.input(name));
  made.register('n', {
    width: 2,
    clock: clk,
    data: (self) => made.mux(en, made.increment(self), self),
    enables: [{ condition: en }],
    initial: '00',
    port: 'output',
  });
  const netlist = made.build();

  it('folds a vector and unfolds its bits', () => {
    const data = preview(netlist, 70_000);
    expect(data.traces.map(({ kind, name, parent }) => [name, kind, parent])).toEqual([
      ['clk', 'clock', null],
      ['en', 'input', null],
      ['n[1:0]', 'register', null],
      ['n[1]', 'register', 2],
      ['n[0]', 'register', 2],
    ]);
    expect(wave(trace(data, 'n[1:0]'))).toBe('00 11000:01 31000:10 51000:11');
  });

  it('says why an edge changed nothing', () => {
    const data = preview(netlist, 50_000, { project: { inputs: { en: 0 } } });
    const { held } = trace(data, 'n[1:0]');
    expect(held.map(({ at }) => at)).toEqual([10_000, 30_000]);
    expect(held[0].words).toMatch(/^kept its value because it is assigned only if en, with en at 0 \(line \d+\)$/);
    expect(data.links[held[0].cause]).toMatchObject({ signal: 'clk', at: 10_000 });
  });
});

describe('settling bands', () => {
  it('hatch from the earliest to the latest change where the delay set has a spread', () => {
    const spread = { delays: 'wide', delaySets: { wide: { clockToQ: { first: [1000, 2000, 3000] } } } };
    const data = preview(ripple(2), 60_000, { project: spread });
    const band = { from: 42_000, to: 46_000, rootEdge: 40_000, moves: 'once', exact: true };
    expect(trace(data, 'q[1]').settling).toEqual([band]);
    expect(trace(preview(ripple(2), 60_000), 'q[1]').settling).toEqual([]);
  });
});

describe('glitch marks', () => {
  it('stand where the run shows the pulse', () => {
    const netlist = ripple(2);
    const { node, place } = netlist.signals.find(({ name }) => name === 'zero') ?? netlist.signals[0];
    const data = preview(netlist, 100_000, {
      glitches: [
        {
          bit: { node, bit: 0 },
          signal: 'zero',
          certainty: 'certain',
          registers: [1, 0].map((id) => ({ register: netlist.registers[id].id, bit: 0, name: `q[${id}]` })),
          transitions: [
            {
              from: '1',
              to: '2',
              passes: [{ at: 1000, value: '1' }],
              pulse: { min: 1000, typ: 1000, max: 1000 },
              witness: [],
            },
          ],
          ends: [{ kind: 'output', signal: 'zero', harmless: false, harmlessAbovePs: null, place }],
          harmless: false,
          why: { reason: 'decoded', args: {} },
          place,
        },
      ],
    });
    expect(data.glitches).toMatchObject([
      {
        at: 41_000,
        until: 42_000,
        certainty: 'certain',
        from: '1',
        to: '2',
        words: 'pulse of 1 ns on 1→2, reaches a port',
      },
    ]);
    expect(data.traces[data.glitches[0].trace].name).toBe('zero');
  });
});
