import { describe, expect, it } from 'vitest';
import { published } from '../published/published';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { falling, fractionText, predictionOf, toggleChain } from './predicted';

/** A counter `name` of `width` bits that goes back to 0 after `last`. */
function modulo(
  c: Circuit,
  name: string,
  clock: Wire,
  width: number,
  last: number,
  edge: 'rising' | 'falling' = 'rising',
) {
  const digits = last.toString(2).padStart(width, '0');
  return c.register(name, {
    width,
    clock,
    edge,
    data: (q: Wire) => c.mux(c.equal(q, c.constant(digits)), c.constant('0'.repeat(width)), c.increment(q)),
    initial: '0'.repeat(width),
  });
}

const list = (fractions: readonly Parameters<typeof fractionText>[0][]) => fractions.map(fractionText).join(' ');

describe('ratios and duties of registers', () => {
  it('each stage of a ripple halves', () => {
    const c = circuit();
    toggleChain(c, c.input('clk'), falling(3));
    const { prediction } = predictionOf(c.build());
    expect(prediction.registers.map(({ ratios }) => list(ratios))).toEqual(['2/1', '4/1', '8/1']);
    expect(prediction.registers.map(({ duties }) => list(duties))).toEqual(['1/2', '1/2', '1/2']);
  });

  published('TB-9', 'a decade: duties 20, 40, 40, 50 %, most significant first', () => {
    const c = circuit();
    modulo(c, 'q', c.input('clk'), 4, 9);
    const { register } = predictionOf(c.build());
    expect(list(register('q').duties)).toBe('1/5 2/5 2/5 1/2');
    expect(list(register('q').ratios)).toBe('10/1 10/1 5/1 2/1');
  });

  published('TB-16', 'divide by 3: bit 1 is high a third of the time', () => {
    const c = circuit();
    modulo(c, 'q', c.input('clk'), 2, 2);
    expect(list(predictionOf(c.build()).register('q').duties)).toBe('1/3 1/3');
  });

  published('DS-16', 'bi-quinary: a square output at a tenth', () => {
    const c = circuit();
    const five = modulo(c, 'five', c.input('clk'), 3, 4, 'falling');
    c.register('two', { clock: five.bit(2), edge: 'falling', data: (q: Wire) => c.not(q), initial: '0' });
    const { register } = predictionOf(c.build());
    expect(list(register('two').ratios)).toBe('10/1');
    expect(list(register('two').duties)).toBe('1/2');
  });

  it('a bit that stands still, and one that is not known, have no ratio', () => {
    const c = circuit();
    const clk = c.input('clk');
    c.register('still', { clock: clk, data: c.constant('1'), initial: '1' });
    c.register('free', { clock: clk, data: c.undriven('n'), initial: '0' });
    const { register } = predictionOf(c.build());
    expect([list(register('still').ratios), list(register('free').ratios)]).toEqual(['none', 'none']);
  });

  it('counters side by side do not multiply their periods', () => {
    const c = circuit();
    const clk = c.input('clk');
    for (const last of [250, 238, 232, 226]) modulo(c, `q${last}`, clk, 8, last);
    const { register } = predictionOf(c.build());
    expect([250, 238, 232, 226].map((last) => fractionText(register(`q${last}`).ratios[0]))).toEqual([
      '251/1',
      '239/1',
      '233/1',
      '227/1',
    ]);
  });

  it('a periodic enable gives updateEvery; one that always holds gives none', () => {
    const c = circuit();
    const clk = c.input('clk');
    const three = modulo(c, 'three', clk, 2, 2);
    const tick = c.net('tick', c.equal(three, c.constant('10')));
    const counted = (name: string, condition: Wire) =>
      c.register(name, {
        width: 2,
        clock: clk,
        data: (q: Wire) => c.mux(condition, c.increment(q), q),
        initial: '00',
        enables: [{ condition }],
      });
    counted('slow', tick);
    counted('always', c.constant('1'));
    const { register } = predictionOf(c.build());
    expect(fractionText(register('slow').updateEvery)).toBe('3/1');
    expect(list(register('slow').ratios)).toBe('12/1 6/1');
    expect(register('always').updateEvery).toBeNull();
  });
});

describe('clocks', () => {
  published('TB-10', '12 MHz through 5, 8 and 10 is 30 kHz', () => {
    const c = circuit();
    const clk = c.input('clk');
    const five = modulo(c, 'five', clk, 3, 4);
    const eight = modulo(c, 'eight', five.bit(2), 3, 7);
    const ten = modulo(c, 'ten', eight.bit(2), 4, 9);
    c.register('end', { clock: ten.bit(3), data: (q: Wire) => c.not(q), initial: '0' });
    const drive = { clocks: { clk: { periodPs: 83_333, highPs: null, phasePs: null } } };
    const { clock } = predictionOf(c.build(), { drive });
    expect(['five[2]', 'eight[2]', 'ten[3]'].map((name) => fractionText(clock(name).ratio))).toEqual([
      '5/1',
      '40/1',
      '400/1',
    ]);
    expect(clock('ten[3]').hertz).toBeCloseTo(30e3, -1);
  });

  it('a root, its inverse and a gate held open', () => {
    const c = circuit();
    const clk = c.input('clk');
    const en = c.input('en');
    const toggle = (name: string, clock: Wire) =>
      c.register(name, { clock, data: (q: Wire) => c.not(q), initial: '0' });
    toggle('a', clk);
    toggle('b', c.net('n', c.not(clk)));
    toggle('d', c.net('g', c.and(clk, en)));
    const drive = { clocks: { clk: { periodPs: 20_000, highPs: 5_000, phasePs: null } }, inputs: { en: '1' } };
    const { clock } = predictionOf(c.build(), { drive, clocks: { clockOperands: { g: 'clk' } } });
    expect(['clk', 'n', 'g'].map((name) => fractionText(clock(name).ratio))).toEqual(['1/1', '1/1', '1/1']);
    expect(['clk', 'n', 'g'].map((name) => fractionText(clock(name).duty))).toEqual(['1/4', '3/4', '1/4']);
    expect(clock('clk').hertz).toBe(50e6);
  });

  it('unequal spacing: the mean, and the root edges that rise', () => {
    // Three pulses in eight: an enable from a counter at 0, 3 and 4.
    const c = circuit();
    const clk = c.input('clk');
    const count = c.register('count', {
      width: 3,
      clock: clk,
      edge: 'falling',
      data: (q: Wire) => c.increment(q),
      initial: '000',
    });
    const en = c.or(
      c.equal(count, c.constant('000')),
      c.equal(count, c.constant('011')),
      c.equal(count, c.constant('100')),
    );
    const pulse = c.net('pulse', c.and(clk, en));
    c.register('q', { clock: pulse, data: (q: Wire) => c.not(q), initial: '0' });
    const { clock } = predictionOf(c.build(), { clocks: { clockOperands: { pulse: 'clk' } } });
    expect(clock('pulse')).toMatchObject({ uniform: false, pattern: [0, 3, 4] });
    expect(fractionText(clock('pulse').ratio)).toBe('8/3');
  });

  it('a clock of both edges doubles', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = c.register('a', { clock: clk, data: (q: Wire) => c.not(q), initial: '0' });
    const b = c.register('b', { clock: clk, edge: 'falling', data: (q: Wire) => c.not(q), initial: '0' });
    const x = c.net('x', c.xor(a, b));
    c.register('q', { clock: x, data: (q: Wire) => c.not(q), initial: '0' });
    const drive = { clocks: { clk: { periodPs: 20_000, highPs: 5_000, phasePs: null } } };
    const { clock } = predictionOf(c.build(), { drive });
    expect(fractionText(clock('x').ratio)).toBe('1/1');
    expect(fractionText(clock('x').duty)).toBe('1/4');
  });

  it('a gate made of the root and a toggle of it', () => {
    // Settled levels: 0 after the first rise, 1 after its fall, 1 after the second rise, 0 after its fall.
    const c = circuit();
    const clk = c.input('clk');
    const a = c.register('a', { clock: clk, data: (q: Wire) => c.not(q), initial: '0' });
    c.register('e', { clock: c.net('mixed', c.xor(clk, a)), data: (q: Wire) => c.not(q), initial: '0' });
    const { clock } = predictionOf(c.build());
    expect(fractionText(clock('mixed').ratio)).toBe('2/1');
    expect(fractionText(clock('mixed').duty)).toBe('1/2');
  });

  it('what hears two unrelated clocks has no ratio', () => {
    const c = circuit();
    const other = c.register('other', { clock: c.input('clk_b'), data: (q: Wire) => c.not(q), initial: '0' });
    c.register('sync', {
      width: 2,
      clock: c.input('clk_a'),
      data: (q: Wire) => c.concat(q.bit(0), other),
      initial: '00',
    });
    const { register, count } = predictionOf(c.build());
    expect(list(register('sync').ratios)).toBe('none none');
    expect(list(register('other').ratios)).toBe('2/1');
    expect(count('sync')).toMatchObject({ period: null, kind: 'other', why: { reason: 'several-clocks' } });
  });
});
