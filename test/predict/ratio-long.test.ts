// Ratios whose period is beyond what is stepped: proven by code, or without it, and left open beyond the limit.

import { expect, it } from 'vitest';
import { compileModule } from '../../server/src/module-compiler';
import { circuit } from '../tools/circuit';
import { fractionText, predictionOf } from './predicted';

/**
 * A shift register of maximal length (18 bits, x^18 + x^11 + 1: taps 18, 11, from the published lists) steps only while
 * a counter of three bits is 0, so that its states come back after 8 x (2^18 - 1) periods; a flag follows one of them.
 */
function slowShift() {
  const c = circuit();
  const clk = c.input('clk');
  const pace = c.register('pace', { width: 3, clock: clk, initial: '000', data: (self) => c.increment(self) });
  const isDue = c.not(c.reduceOr(pace));
  const shift = c.register('shift', {
    width: 18,
    clock: clk,
    initial: '000000000000000001',
    data: (self) => c.mux(isDue, c.concat(self.bits(16, 0), c.xor(self.bit(17), self.bit(10))), self),
  });
  c.register('flag', { clock: clk, initial: '0', data: c.equal(shift, c.constant('000000000000000001')) });
  return c.build();
}

const period = 8 * (2 ** 18 - 1);
/** What is stepped before code takes over. */
const stepped = { period: 2048 };

it('proves by compiled code what stepping leaves open', () => {
  const { register } = predictionOf(slowShift(), { compile: compileModule, limits: stepped });
  const [top] = register('shift').ratios;
  // Of 2^18 - 1 states half, and half a one more, have the bit set; it rises at 2^16 of them: 8 (2^18 - 1) / 2^16.
  expect(fractionText(top)).toBe('262143/8192');
  expect(fractionText(register('flag').ratios[0])).toBe(`${period}/1`);
  expect(fractionText(register('flag').duties[0])).toBe(`1/${2 ** 18 - 1}`);
});

it('proves the same without a compiler', () => {
  const { register } = predictionOf(slowShift(), { limits: stepped });
  expect(fractionText(register('flag').ratios[0])).toBe(`${period}/1`);
});

it('leaves it open where the limit of cycles is below', () => {
  const limited = predictionOf(slowShift(), { compile: compileModule, limits: { ...stepped, cycles: 1_000_000 } });
  expect(limited.register('flag').ratios).toEqual([null]);
});
