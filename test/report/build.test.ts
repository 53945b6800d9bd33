// The builders of the report, on circuits by hand: the numbers are those of TB-1 and TB-4 of the published values (Floyd,
// Digital Fundamentals, 11th ed., Example 9-1, p. 503: four falling-edge stages of 10 ns settle in 40 ns).
import { Ajv2020 } from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import { buildReport, type ReportFacts } from '../../server/src/report/build-report';
import type { DesignFacts } from '../../server/src/report/design-facts';
import { publishedSchemas } from '../../server/src/report/published-schemas';
import type { Report } from '../../server/src/report/report';
import { writeJson } from '../../server/src/report/write-json';
import { writeText } from '../../server/src/report/write-text';
import { finish } from '../predict/timed';
import { circuit } from '../tools/circuit';
import { designOf } from './design';
import { ripple } from './ripple';

const validates = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
  publishedSchemas()['report.schema.json'],
);

/** Every report of this file is held to the schema on the way. */
function reportOf(design: DesignFacts, more: Partial<ReportFacts> = {}): Report {
  const report = finish(
    buildReport({
      options: design.options,
      files: ['hand.v'],
      places: design.places,
      complaints: [],
      acceptances: [],
      top: 'ripple',
      otherTops: [],
      delaySet: design.prediction.delaySet,
      design,
      ...more,
    }),
  );
  expect(validates(JSON.parse(writeJson(report))), JSON.stringify(validates.errors)).toBe(true);
  return report;
}

const tens = { delays: 'tens', delaySets: { tens: { clockToQ: { first: 10_000 }, conditions: '10 ns a stage' } } };

describe('the report of a four-stage ripple', () => {
  const report = reportOf(designOf(ripple(4), { project: tens }));

  it('has its registers stage by stage', () => {
    expect(
      report.registers.map(({ name, stage, clock, root, ratio }) => [name, stage, clock.signal, root?.edge, ratio]),
    ).toEqual([
      ['q[0]', 1, 'clk', 'falling', '2/1'],
      ['q[1]', 2, 'q[0]', 'falling', '4/1'],
      ['q[2]', 3, 'q[1]', 'falling', '8/1'],
      ['q[3]', 4, 'q[2]', 'falling', '16/1'],
    ]);
    expect(report.registers[3]).toMatchObject({
      settles: { min: 40_000, typ: 40_000, max: 40_000 },
      duty: '1/2',
      start: '0',
      startFrom: 'text',
      bitRatios: [],
    });
  });

  it('has the chain, its settling and its clock', () => {
    expect(report.chains).toMatchObject([
      { root: 'clk', registers: ['q[0]', 'q[1]', 'q[2]', 'q[3]'], settle: { max: 40_000 }, maxClockHz: 25e6 },
    ]);
  });

  it('has the count with the readings passed on the way (TB-4)', () => {
    const [count] = report.counts;
    expect(count).toMatchObject({
      kind: 'up',
      modulus: 16,
      period: 16,
      valuesTotal: 16,
      registers: ['q[3]', 'q[2]', 'q[1]', 'q[0]'],
    });
    expect(count.values.join(' ')).toBe('0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15');
    expect(count.steps.find(({ from }) => from === '7')?.passes).toEqual([
      { at: 10_000, value: '6' },
      { at: 20_000, value: '4' },
      { at: 30_000, value: '0' },
    ]);
  });

  it('has outputs by form', () => {
    expect(report.outputs.map(({ name, form }) => [name, form])).toEqual([
      ['q', 'registered'],
      ['zero', 'decoded'],
    ]);
  });

  it('reads well', () => {
    const text = writeText(report);
    expect(text).toContain('settled 40 ns after the edge that starts it');
    expect(text).toContain('counts up, modulo 16');
    expect(text).toContain('passes 6, 4 and 0 on the way from 7 to 8');
  });

  it('is the same bytes for the same input', () => {
    expect(writeJson(reportOf(designOf(ripple(4), { project: tens })))).toBe(writeJson(report));
  });
});

describe('shortened lists', () => {
  it('say how long they were; complete ones are whole', () => {
    const [short] = reportOf(designOf(ripple(9))).counts;
    expect([short.values.length, short.valuesTotal]).toEqual([256, 512]);
    const [whole] = reportOf(designOf(ripple(9), { complete: true })).counts;
    expect([whole.values.length, whole.valuesTotal]).toEqual([512, 512]);
  });
});

describe('a vector register', () => {
  it('has ratios by bit, and of all bits together their common period', () => {
    const made = circuit('counter');
    const clk = made.input('clk');
    made.register('n', { width: 3, clock: clk, data: (self) => made.increment(self), initial: '000', port: 'output' });
    const [register] = reportOf(designOf(made.build())).registers;
    expect(register).toMatchObject({ name: 'n[2:0]', msb: 2, lsb: 0, ratio: '8/1', duty: null });
    expect(register.bitRatios).toEqual(['8/1', '4/1', '2/1']);
    expect(register.bitDuties).toEqual(['1/2', '1/2', '1/2']);
  });
});

describe('outputs', () => {
  it('are told by what stands behind them', () => {
    const made = circuit('forms');
    const [clk, a, en] = ['clk', 'a', 'en'].map((name) => made.input(name));
    const q = made.register('q', { clock: clk, data: a, initial: '0' });
    made.output('registered', made.buf(q));
    made.output('decoded', made.not(q));
    made.output('through', made.and(a, en));
    made.output('mixed', made.and(a, q));
    made.output('clock', made.not(clk));
    made.output('pair', made.concat(q, a));
    made.output('tied', made.constant('1'));
    const r = made.register('r', { clock: clk, data: q, initial: '0' });
    made.output('muxed', made.mux(r, q, made.not(q)));
    made.output('same', made.and(r, made.not(q)));
    made.output('two', made.equal(made.concat(q, r), made.constant('10')));
    made.output('odd', made.xor(q, r));
    const { outputs } = reportOf(designOf(made.build()));
    expect(outputs.map(({ form, glitchFree, name }) => [name, form, glitchFree])).toEqual([
      ['registered', 'registered', true],
      ['decoded', 'decoded', true],
      ['through', 'through', null],
      ['mixed', 'mixed', null],
      ['clock', 'clock', null],
      ['pair', 'mixed', null],
      ['tied', 'through', true],
      ['muxed', 'decoded', null],
      ['same', 'decoded', true],
      ['two', 'decoded', true],
      ['odd', 'decoded', null],
    ]);
  });
});

describe('findings', () => {
  const design = designOf(ripple(2), {
    project: { accepted: [{ id: 'ripple-chain', signal: 'q', reason: 'slow and meant' }] },
    findings: ['u1', 'u2'].map((path) => ({
      id: 'ripple-chain' as const,
      certainty: null,
      severity: 'warning' as const,
      signals: [`${path}.q[0]`, 'q[1]'],
      instances: [path],
      place: ripple(2).registers[1].place,
      related: [],
      facts: {
        root: 'clk',
        stages: 2,
        settleMinPs: 2000,
        settleTypPs: 2000,
        settleMaxPs: 2000,
        worstFrom: '3',
        worstTo: '0',
        maxClockHz: 5e8,
      },
    })),
  });

  it('are one per place, with the signals and instances of all, and accepted by name', () => {
    const { findings } = reportOf(design);
    expect(findings).toMatchObject([
      {
        id: 'ripple-chain',
        instances: ['u1', 'u2'],
        signals: ['u1.q[0]', 'q[1]', 'u2.q[0]'],
        accepted: { reason: 'slow and meant' },
      },
    ]);
    expect(findings[0].message).toContain('only 2 ns (from 3 to 0) after an edge of clk');
  });

  it('of reading stand with their sentence and facts, and in the coverage', () => {
    const { place } = ripple(2).registers[0];
    const complaint = (id: 'unsupported' | 'limit-reached', reason: string, args: Record<string, string | number>) => ({
      id,
      reason,
      args,
      place,
      related: [],
    });
    const report = reportOf(designOf(ripple(2)), {
      complaints: [
        complaint('unsupported', 'construct', { what: 'class' }),
        complaint('limit-reached', 'limit', { limit: 'unroll', value: 7 }),
      ],
    });
    expect(report.findings.map(({ id, message, severity }) => [id, severity, message])).toEqual([
      [
        'limit-reached',
        'warning',
        'more than 7 turns of one loop, the rest is not read; limits.unroll in foretick.json raises this',
      ],
      ['unsupported', 'warning', 'class is not read: what depends on it is unknown'],
    ]);
    expect(report.coverage).toMatchObject({
      skipped: [{ message: 'class is not read: what depends on it is unknown' }],
      limits: [{ name: 'unroll', limit: 7 }],
    });
  });

  it('does not pass over what a person stated and nothing came of', () => {
    const project = {
      static: ['q', 'none'],
      strobes: ['zero'],
      related: [['clk', 'far']],
      cells: { pll: { in: 'clock' } },
      overrides: { far: { clockToQ: { first: 5 } } },
      rates: { zero: 9600, gone: 5, q: 5 },
      accepted: [{ id: 'raw-input', signal: 'd', reason: 'meant' }],
      resets: { gone: { active: 'low' } },
    };
    const { assumptions } = reportOf(designOf(ripple(2), { project }));
    const given = assumptions
      .filter(({ source }) => source === 'given')
      .map(({ about, reason }) => `${about}: ${reason}`);
    expect(given).toEqual([
      'gone: resets in foretick.json names gone, which is no reset of this design',
      'none: static in foretick.json names none, which is no signal of this design',
      'far: related in foretick.json names far, which is no signal of this design',
      'pll: cells in foretick.json names pll, which is given or not used',
      'd: accepted raw-input of d in foretick.json meets no finding',
      'far: overrides in foretick.json names far, which is no instance or signal of this design',
      'gone: rates in foretick.json names gone, which is no signal of this design',
      'q: rates in foretick.json wishes a rate of q, which has several bits: name one of them',
    ]);
  });

  it('without a top stand alone', () => {
    const report = reportOf(designOf(ripple(2)), { top: null, design: null });
    expect(report).toMatchObject({ top: null, registers: [], findings: [], drive: { clocks: [] } });
    expect(writeText(report)).toContain('no module to study');
  });
});
