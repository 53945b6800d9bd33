// Data and clock that leave at the same root edge (definition 28): what a later register samples, by the difference of
// their arrivals (21, 29), and that the settled sequences follow it.

import { expect, it } from 'vitest';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { tripleOf } from '../../server/src/delays/triple';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { flipFlops, predictionOf } from './predicted';

/** A ripple of two toggles, and a register of two bits that samples `data` at one of their outputs. */
function sampled(
  data: (c: Circuit, parts: { clk: Wire; d: Wire; q0: Wire; q1: Wire }) => Wire,
  at: 'q0' | 'q1',
  delaySet?: DelaySet,
) {
  const c = circuit();
  const clk = c.input('clk');
  const toggle = (name: string, clock: Wire) => c.register(name, { clock, data: (q: Wire) => c.not(q), initial: '0' });
  const d = toggle('d', clk);
  const q0 = toggle('q0', clk);
  const q1 = toggle('q1', q0);
  c.register('r', {
    width: 2,
    clock: at === 'q0' ? q0 : q1,
    data: (r: Wire) => c.concat(r.bit(0), data(c, { clk, d, q0, q1 })),
    initial: '00',
  });
  return predictionOf(c.build(), delaySet === undefined ? {} : { delaySet }).count('r');
}

const unit = builtInDelaySet('unit') as DelaySet;
const wide: DelaySet = flipFlops(0, {
  clockToQ: { first: { rise: { min: 1, typ: 50, max: 100 }, fall: { min: 1, typ: 50, max: 100 } }, next: null },
});

it('equal times are a race: unknown', () => {
  expect(
    sampled((_, { d }) => d, 'q0', unit)
      .leadIn.concat(sampled((_, { d }) => d, 'q0', unit).values)
      .at(-1),
  ).toBe('xx');
});

it('a clock one stage later meets the new value', () => {
  // d and q0 rise together, q1 rises one flip-flop later: d is 1 by then, each time.
  expect(sampled((_, { d }) => d, 'q1', unit).values.at(-1)).toBe('3');
});

it('what the clock itself came from is met new, however wide the triples', () => {
  // q1 answers to q0's rise, so at q1's rise q0 is 1: the shared part cancels and the flip-flop q1 still takes time.
  expect(sampled((_, { q0 }) => q0, 'q1', wide).values.at(-1)).toBe('3');
});

it('with wide triples two paths of equal make are not told apart', () => {
  expect(sampled((_, { d }) => d, 'q1', wide).values.at(-1)).toBe('xx');
});

it('the root itself as data has long moved', () => {
  expect(sampled((_, { clk }) => clk, 'q0', unit).values.at(-1)).toBe('3');
});

it('logic in front of the data, a setup, and a delay of the text each can turn the answer', () => {
  const slowGate = (gate: number) => ({ ...unit, logic: { gate: { rise: tripleOf(gate), fall: tripleOf(gate) } } });
  const anded = (c: Circuit, { d }: { d: Wire }) => c.and(d, c.input('en'));
  expect(sampled(anded, 'q1', slowGate(999)).values.at(-1)).toBe('3');
  expect(sampled(anded, 'q1', slowGate(1000)).values.at(-1)).toBe('xx');
  expect(sampled((_, { d }) => d, 'q1', { ...unit, setup: tripleOf(1000) }).values.at(-1)).toBe('3');
  expect(sampled((_, { d }) => d, 'q1', { ...unit, setup: tripleOf(1001) }).values.at(-1)).toBe('xx');
  const late = (() => {
    const c = circuit();
    const clk = c.input('clk');
    const d = c.register('d', { clock: clk, data: (q: Wire) => c.not(q), initial: '0', delay: 5000 });
    const q0 = c.register('q0', { clock: clk, data: (q: Wire) => c.not(q), initial: '0' });
    c.register('r', { width: 2, clock: q0, data: (r: Wire) => c.concat(r.bit(0), d), initial: '11' });
    return predictionOf(c.build(), { delaySet: unit }).count('r');
  })();
  // d changes 4 ns after the clock: its old value, 0, is sampled each time.
  expect(late.values.at(-1)).toBe('0');
});
