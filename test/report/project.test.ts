// The project file: what it may say, and that everything else is refused by name.
import { Ajv2020 } from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject, parseProject } from '../../server/src/report/project';
import { projectShape } from '../../server/src/report/project-shape';
import { schemaOf } from '../../server/src/report/schema';

const validates = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schemaOf(projectShape, { open: false }));

/** The hand-written check and the published schema must agree on every text below. */
function read(value: unknown) {
  const text = JSON.stringify(value);
  try {
    const project = parseProject(text, 'foretick.json');
    expect(validates(JSON.parse(text)), JSON.stringify(validates.errors)).toBe(true);
    return project;
  } catch (refusal) {
    return (refusal as Error).message;
  }
}

function refused(value: unknown): unknown {
  expect(validates(value)).toBe(false);
  return read(value);
}

const whole = {
  top: 'ripple',
  delays: 'bench',
  start: 1,
  clocks: { clk: { periodPs: 40_000, highPs: 10_000, phasePs: 0 }, other: {} },
  related: [['clk', 'other']],
  resets: { rst_n: { active: 'low', periods: 3 } },
  inputs: { en: 1, mode: "4'b0011" },
  dump: { file: 'run.vcd', scope: 'tb.dut' },
  clockOperands: { gated: 'clk' },
  cells: { pll: { in: 'clock', out: 'buffer', ratio: '4/1' } },
  static: ['config'],
  strobes: ['done'],
  rates: { tick: 9600 },
  accepted: [{ id: 'ripple-chain', signal: 'q', reason: 'slow and meant' }],
  delaySets: { bench: { clockToQ: { first: { rise: 10, fall: { min: 1, typ: 2, max: 3 } } }, setup: 3, hold: null } },
  overrides: { u1: { clockToQ: { first: 5 } } },
  limits: { unroll: 10 },
  libraries: ['cells'],
  includes: ['include'],
  defines: { WIDTH: '4' },
};

describe('foretick.json', () => {
  it('may say everything that is promised', () => {
    const project = read(whole);
    expect(project).toMatchObject({
      top: 'ripple',
      start: '1',
      clocks: { other: { periodPs: null, highPs: null, phasePs: null } },
      inputs: { en: '1', mode: "4'b0011" },
      cells: { pll: { pins: { in: 'clock', out: 'buffer' }, ratio: '4/1' } },
    });
    expect(Object.keys(whole)).toEqual(Object.keys(projectShape.fields));
  });

  it('may be empty', () => {
    expect(read({})).toEqual(noProject);
  });

  it('is refused for unknown keys, all of them named', () => {
    expect(refused({ clock: {}, clocks: { clk: { period: 20 } }, limits: { unrol: 3 } })).toBe(
      'foretick.json: clock is not a known key; clocks.clk.period is not a known key; limits.unrol is not a known key',
    );
  });

  it('is refused for values of the wrong kind, by path', () => {
    expect(refused({ start: 2 })).toContain('start must be one of "0", "1", "x", 0, 1');
    expect(refused({ clocks: { clk: { periodPs: 0 } } })).toContain(
      'clocks.clk.periodPs must be a whole number, at least 1',
    );
    expect(refused({ accepted: [{ id: 'ripple-chain', signal: 'q' }] })).toContain('accepted[0].reason is missing');
    expect(refused([])).toBe('foretick.json: the file must be an object');
    expect(refused({ cells: { pll: { in: 'amplifier' } } })).toContain('cells.pll.in must be');
    expect(refused({ delaySets: { mine: { clockToQ: { first: 'fast' } } } })).toContain(
      'delaySets.mine.clockToQ.first',
    );
  });

  it('is refused for what only two values together tell', () => {
    expect(read({ clocks: { clk: { periodPs: 10, highPs: 10 } } })).toContain(
      'clocks.clk.highPs must be less than periodPs',
    );
    expect(read({ rates: { tick: 0 } })).toContain('rates.tick must be above 0');
    expect(read({ cells: { pll: { out: '1/2' } } })).toContain('cells.pll.out must be clock, buffer, inverter');
    expect(read({ cells: { pll: { ratio: 'clock' } } })).toContain('cells.pll.ratio must be a fraction');
  });

  it('is refused where it is not JSON', () => {
    expect(() => parseProject('{ "top": ', 'a/foretick.json')).toThrow('a/foretick.json: not valid JSON');
  });

  it('keeps a key that every object has by birth out of the way', () => {
    expect(() => parseProject('{"__proto__": {}}', 'foretick.json')).toThrow('__proto__ is not a known key');
    expect(() => parseProject('{"toString": 1}', 'foretick.json')).toThrow('toString is not a known key');
  });
});

describe('the options of a study', () => {
  it('take the run over the project over the default', () => {
    const project = parseProject(JSON.stringify(whole), 'foretick.json');
    const options = optionsFrom(project, {
      ...noSettings,
      top: 'other',
      defines: { DEPTH: '2' },
      limits: { nodes: 7 },
    });
    expect(options).toMatchObject({ top: 'other', delays: 'bench', defines: { WIDTH: '4', DEPTH: '2' } });
    expect(options.limits).toEqual({ ...limitDefaults, unroll: 10, nodes: 7 });
    expect(optionsFrom(noProject, noSettings)).toMatchObject({ delays: 'unit', drive: { start: '0' } });
  });

  it('refuse a limit that is not ours', () => {
    expect(() => optionsFrom(noProject, { ...noSettings, limits: { speed: 1 } })).toThrow('no limit is called speed');
  });
});
