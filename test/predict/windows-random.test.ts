// Windows hold every run: random circuits under random triples, then runs of the timed engine with every delay chosen at
// random inside its triple. And where a window is called exact both its ends are reached: with all delays least, and with
// all largest. The seed is printed; the same seed gives the same circuits.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { DelaySet, DirectionalDelay } from '../../server/src/delays/delay-set';
import { logicClasses } from '../../server/src/delays/delay-set';
import type { Bit, DelayTriple } from '../../server/src/netlist/netlist';
import type { Waves } from '../../server/src/predict/waves';
import { buildCircuit, recipes } from './random-circuit';
import { plainSet } from './timed';
import { movingBits, outside, windowsOf } from './windows-of';

const seed = Number(process.env.FORETICK_SEED ?? 20261125);
process.stdout.write(`random windows from seed ${seed} (FORETICK_SEED sets another)\n`);

const triples: fc.Arbitrary<DelayTriple> = fc
  .tuple(fc.nat(3000), fc.nat(2000), fc.nat(2000))
  .map(([min, more, most]) => ({ min, typ: min + more, max: min + more + most }));
const delays: fc.Arbitrary<DirectionalDelay> = fc.record({ rise: triples, fall: triples });

const sets: fc.Arbitrary<DelaySet> = fc
  .record({
    first: delays,
    next: delays,
    clear: delays,
    logic: fc.record(Object.fromEntries(logicClasses.map((name) => [name, delays]))),
    limits: fc.option(fc.record({ setup: triples, hold: triples }), { nil: { setup: null, hold: null } }),
  })
  .map(({ clear, first, limits, logic, next }) => ({
    ...plainSet('random', { register: 1 }),
    clockToQ: { first, next },
    clear,
    logic,
    ...limits,
  }));

/** A choice inside a triple, from numbers between 0 and 1. */
function chooser(numbers: Iterator<number>): (triple: DelayTriple) => number {
  return ({ max, min }) => min + Math.round((numbers.next().value as number) * (max - min));
}

const shares = fc.infiniteStream(fc.oneof(fc.constantFrom(0, 1), fc.double({ min: 0, max: 1, noNaN: true })));

function changesAt(waves: Waves, bit: Bit, at: number): boolean {
  return Array.from(waves.changesOf(bit)).some((change) => waves.changes.time[change] === at);
}

function check(period: fc.Arbitrary<number>, numRuns: number, exactAtLeast: number): void {
  const counted = { all: 0, exact: 0 };
  fc.assert(
    fc.property(recipes, sets, period, fc.boolean(), shares, (recipe, set, ns, isReset, numbers) => {
      const windowed = windowsOf(buildCircuit(recipe), {
        clocks: { clk: { period: ns } },
        resets: { clear: { release: isReset ? ns * 1.8 : 0 } },
        inputs: { a: '00000001', b: '0'.repeat(40) },
        delays: set,
        until: ns * 12,
      });
      counted.all += movingBits(windowed.netlist).reduce((sum, bit) => sum + windowed.windows.of(bit).length, 0);
      expect(outside(windowed, windowed.waves)).toEqual([]);
      for (let run = 0; run < 6; run++) expect(outside(windowed, windowed.runWith(chooser(numbers)))).toEqual([]);
      const [least, most] = [windowed.runWith(({ min }) => min), windowed.runWith(({ max }) => max)];
      for (const bit of movingBits(windowed.netlist)) {
        for (const { exact, from, to } of windowed.windows.of(bit)) {
          if (!exact) continue;
          counted.exact += 1;
          expect(changesAt(least, bit, from)).toBe(true);
          expect(changesAt(most, bit, to)).toBe(true);
        }
      }
    }),
    { numRuns, seed, endOnFailure: true },
  );
  process.stdout.write(`${counted.all} windows, ${counted.exact} of them exact\n`);
  expect(counted.exact).toBeGreaterThan(exactAtLeast);
}

it('hold every choice of delays where each root edge settles before the next', () => {
  check(fc.constant(2000), 150, 1000);
});

it('and where root edges overtake each other', () => {
  check(fc.integer({ min: 3, max: 40 }), 150, 100);
});
