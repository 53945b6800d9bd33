// Nets with several drivers, pull-ups and unknown selects under the timed engine.
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { driveOf } from '../../server/src/predict/drive-of';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { nothingStated } from '../clocks/describe-clocks';
import { circuit } from '../tools/circuit';
import { describeRun, finish, plainSet, runTimed } from './timed';

describe('an inout used on an edge (definition 7)', () => {
  it('reads its pull-up while nothing drives it, and is pulled low by the design', () => {
    const c = circuit();
    const clk = c.input('clk');
    const low = c.register('low', { clock: clk, data: (q) => c.not(q), initial: '0' });
    const line = c.wired('line', 'wire', [c.inout('pad'), c.tristate(c.constant('0'), low)]);
    c.register('count', { width: 2, clock: line, edge: 'falling', data: (q) => c.increment(q), initial: '00' });
    const netlist = c.build();
    const network = finish(findClocks(netlist, nothingStated));
    const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start: '0' });
    expect(drive.pulls.map(({ name }) => name)).toEqual(['line']);
    const delaySet = builtInDelaySet('unit') as DelaySet;
    const run = describeRun(
      netlist,
      finish(predictWaves({ netlist, network, drive, delaySet, until: 100_000, limits: limitDefaults, start: '0' })),
    );
    expect(run.wave('line')).toBe('1 @11:0 @31:1 @51:0 @71:1 @91:0');
    expect([5, 20, 60, 95].map((time) => run.at('count', time))).toEqual(['00', '01', '10', '11']);
  });
  it('is a clock of its own where the outside drives it alone', () => {
    const c = circuit();
    c.register('q', { clock: c.inout('scl'), data: (q) => c.not(q), initial: '0' });
    const run = runTimed(c.build(), { inputs: { scl: 'z' }, pulls: ['scl'], until: 100 });
    expect(run.wave('scl')).toBe('1');
    expect(run.wave('q')).toBe('0');
  });
});

describe('nets with several drivers (IEEE 1364-2005 4.6)', () => {
  const driven = (kind: 'wire' | 'wand' | 'wor' | 'tri0' | 'tri1') => {
    const c = circuit();
    const [a, b] = ['a', 'b'].map((name) => c.tristate(c.input(`${name}d`), c.input(`${name}e`)));
    c.wired('y', kind, [a, b]);
    // a drives 1 from 10 to 40, b drives 0 from 30 to 60.
    const run = runTimed(c.build(), {
      inputs: { ad: '1', bd: '0' },
      clocks: { ae: { period: 1000, phase: 10, high: 30 }, be: { period: 1000, phase: 30, high: 30 } },
      until: 100,
    });
    return run.wave('y');
  };
  it('are released, driven and in conflict', () => {
    expect(driven('wire')).toBe('z @10:1 @30:x @40:0 @60:z');
    expect(driven('wand')).toBe('z @10:1 @30:0 @60:z');
    expect(driven('wor')).toBe('z @10:1 @40:0 @60:z');
    expect(driven('tri0')).toBe('0 @10:1 @30:x @40:0');
    expect(driven('tri1')).toBe('1 @30:x @40:0 @60:1');
  });
});

describe('an unknown select merges bit by bit (definition 15; EXP-36)', () => {
  it('in a choice and in a case', () => {
    const c = circuit();
    const select = c.input('s');
    const [one, zero] = [c.constant('1100'), c.constant('1000')];
    c.output('m', c.mux(select, one, zero));
    c.output(
      'k',
      c.select(
        c.concat(select, c.constant('1')),
        [
          ['11', one],
          ['01', zero],
        ],
        c.constant('0000'),
      ),
    );
    const run = runTimed(c.build(), { inputs: { s: 'x' }, until: 10 });
    expect(run.at('m', 0)).toBe('1x00');
    expect(run.at('k', 0)).toBe('1x00');
  });
});

describe('words', () => {
  it('are computed beyond 32 bits and with unknown digits as the netlist says', () => {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.register('q', {
      width: 40,
      clock: clk,
      data: (self) => c.increment(self),
      initial: '0'.repeat(8) + '1'.repeat(32),
    });
    c.output('sum', c.add(q, q));
    c.output('some', c.reduceOr(q.bits(39, 32)));
    c.output('unknown', c.add(c.input('u', { width: 4 }), c.constant('0001')));
    const run = runTimed(c.build(), { clocks: { clk: { period: 20 } }, inputs: { u: '0x00' }, until: 20 });
    expect(run.at('q', 11)).toBe(`00000001${'0'.repeat(32)}`);
    expect(run.at('sum', 11)).toBe(`00000010${'0'.repeat(32)}`);
    expect(run.wave('some')).toBe('0 @11:1');
    expect(run.at('unknown', 0)).toBe('xxxx');
  });
  it('with a delay keep every bit’s own pending change', () => {
    const c = circuit();
    const both = { rise: { min: 2000, typ: 2000, max: 2000 }, fall: { min: 5000, typ: 5000, max: 5000 } };
    const q = c.register('q', { width: 2, clock: c.input('clk'), data: (self) => c.increment(self), initial: '01' });
    c.output('next', c.increment(q));
    const delays = plainSet('slow', { register: 1, logic: { arithmetic: both } });
    const run = runTimed(c.build(), { clocks: { clk: { period: 100 } }, until: 90, delays });
    // q goes from 01 to 10 at 51; next from 10 to 11: one bit rises.
    expect(run.wave('next[0]')).toBe('0 @53:1');
    expect(run.wave('next[1]')).toBe('1');
  });
});
