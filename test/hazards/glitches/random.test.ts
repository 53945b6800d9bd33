// Every verdict against trying all delays: certain where every choice glitches, possible where some does, silent where
// none does. Delays are whole numbers, and bounds on differences of whole numbers are met at whole numbers, so the
// oracle's grid is exact.

import { describe, expect, it } from 'vitest';
import { glitchesIn } from './glitched';
import { type Outcome, outcomesOf } from './oracle';
import { netlistOf, randomCircuit, randomFrom, type Shape } from './random-ripple';

interface Verdicts {
  readonly expected: readonly string[];
  readonly found: readonly string[];
}

function verdictsOf(seed: number, shape: Shape): Verdicts {
  const circuit = randomCircuit(randomFrom(seed), shape);
  const { glitches } = glitchesIn(netlistOf(circuit));
  const heard =
    glitches[0]?.registers.map(({ name }) => Number(/\d+/.exec(name)?.[0])) ?? [...circuit.bits.keys()].reverse();
  const found = glitches.flatMap(({ certainty, transitions }) =>
    transitions.map(({ from, to }) => `${from}>${to} ${certainty}`),
  );
  return { expected: strongest(outcomesOf(circuit), heard).sort(), found: found.sort() };
}

/** What the oracle says, told by the bits that the decode hears; the strongest where several steps look alike. */
function strongest(outcomes: ReadonlyMap<string, Outcome>, heard: readonly number[]): string[] {
  const seen = (state: number) => heard.reduce((value, bit) => value * 2 + ((state >>> bit) & 1), 0);
  const found = new Map<string, Outcome>();
  for (const [step, outcome] of outcomes) {
    const [from, to] = step.split('>').map((state) => seen(Number(state)));
    const key = `${from}>${to}`;
    if (outcome !== 'clean' && found.get(key) !== 'certain') found.set(key, outcome);
  }
  return [...found].map(([step, outcome]) => `${step} ${outcome}`);
}

describe('random circuits', () => {
  it.each([
    [{ bits: 2, longest: 3, hasLast: 'never' }, 1, 150],
    [{ bits: 3, longest: 3, hasLast: 'never' }, 1000, 150],
    [{ bits: 4, longest: 3, hasLast: 'never' }, 2000, 60],
    [{ bits: 3, longest: 3, hasLast: 'sometimes' }, 3000, 100],
  ] as const)('%o', (shape, from, count) => {
    for (let seed = from; seed < from + count; seed++) {
      const { expected, found } = verdictsOf(seed, shape);
      expect({ seed, found }).toEqual({ seed, found: expected });
    }
  });
});
