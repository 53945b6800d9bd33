// Decodes whose gates take time, against the timed engine run with many choices of delays: what is certain glitches in
// every run, what is silent in none. (That something possible happens is not asked here: a run orders equal times in one
// way only, and the choices are a sample.) Steps in which one bit changes are another finding's matter.

import { describe, expect, it } from 'vitest';
import type { DelayTriple } from '../../../server/src/netlist/netlist';
import { runTimed } from '../../predict/timed';
import { glitchesIn } from './glitched';
import { bitsOf, netlistOf, pinned, type Random, type RandomCircuit, randomCircuit, randomFrom } from './random-ripple';

const periods = 9;

interface Step {
  readonly from: string;
  readonly to: string;
  /** More changes than needed. */
  readonly isDirty: boolean;
}

/** What the decode does after each root edge: levels of all bits before and after, and its changes between. */
function runOnce(circuit: RandomCircuit): Step[] {
  const clocks = { clk: { period: 20, phase: 10, high: 10 } };
  const timed = runTimed(netlistOf(circuit), { clocks, until: 20 * periods + 10 });
  const changes = timed.wave('y').split(' ').slice(1);
  const times = changes.map((change) => Number(/@([\d.]+)/.exec(change)?.[1]));
  return Array.from({ length: periods - 1 }, (_, period) => {
    const [edge, next] = [20 * (period + 1), 20 * (period + 2)];
    const inside = times.filter((time) => time >= edge && time < next).length;
    const isSame = timed.before('y', edge) === timed.before('y', next);
    return { from: timed.before('q', edge), to: timed.before('q', next), isDirty: inside > (isSame ? 0 : 1) };
  });
}

type Verdicts = (step: Step) => string;

/** Verdicts by the bits that the decode hears. */
function verdictsOf(circuit: RandomCircuit): Verdicts {
  const { glitches } = glitchesIn(netlistOf(circuit));
  const verdicts = new Map<string, string>();
  for (const { certainty, transitions } of glitches) {
    for (const { from, to } of transitions) verdicts.set(`${from}>${to}`, certainty);
  }
  const registers = glitches[0]?.registers ?? [];
  const heard = registers.map(({ name }) => circuit.bits.length - 1 - Number(/\d+/.exec(name)?.[0]));
  const number = (digits: string) => BigInt(`0b0${heard.map((bit) => digits[bit]).join('')}`);
  return ({ from, to }) => verdicts.get(`${number(from)}>${number(to)}`) ?? 'clean';
}

/** How many of the bits that the decode hears change. */
function changedBits({ bits, decode }: RandomCircuit, { from, to }: Step): number {
  return bitsOf(decode, bits.length).filter((bit) => from[bits.length - 1 - bit] !== to[bits.length - 1 - bit]).length;
}

function choices(random: Random, count: number): ((triple: DelayTriple) => number)[] {
  const within = (triple: DelayTriple) => triple.min + random(triple.max - triple.min + 1);
  return [({ min }) => min, ({ max }) => max, ...new Array<typeof within>(count).fill(within)];
}

describe('decodes of gates that take time', () => {
  it.each([
    [{ bits: 2, longest: 4, hasLast: 'never', lateOneIn: 2 }, 1, 40],
    [{ bits: 3, longest: 4, hasLast: 'sometimes', lateOneIn: 2 }, 100, 40],
  ] as const)('%o', (shape, first, count) => {
    for (let seed = first; seed < first + count; seed++) {
      const random = randomFrom(seed);
      const circuit = randomCircuit(random, shape);
      const verdictOf = verdictsOf(circuit);
      const steps = choices(random, 10).flatMap((pick) => runOnce(pinned(circuit, pick)));
      for (const step of steps.filter((one) => changedBits(circuit, one) > 1)) {
        const verdict = verdictOf(step);
        if (verdict !== 'possible')
          expect({ seed, ...step }).toEqual({ seed, ...step, isDirty: verdict === 'certain' });
      }
    }
  });
});
