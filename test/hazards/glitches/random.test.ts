// Every verdict against trying all delays: certain where every choice glitches, possible where some does, silent where
// none does. Delays are whole numbers, and bounds on differences of whole numbers are met at whole numbers, so the
// oracle's grid is exact.

import { describe, expect, it } from 'vitest';
import type { GlitchTransition } from '../../../server/src/hazards/glitch';
import { glitchesIn } from './glitched';
import { nextState, type Outcome, outcomesOf } from './oracle';
import { netlistOf, type RandomCircuit, randomCircuit, randomFrom, type Shape } from './random-ripple';

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

/** Bits that the report names, of the whole state. */
function readBits(state: number, names: readonly string[]): bigint {
  return names.reduce((value, name) => value * 2n + BigInt((state >>> Number(/\d+/.exec(name)?.[0])) & 1), 0n);
}

/** Follows the witness of a transition from the start; the states on both sides of its last edge. */
function replay(circuit: RandomCircuit, { witness }: GlitchTransition): readonly [number, number] {
  let state = 0;
  let inputs = 0;
  const last = witness[witness.length - 1].period;
  for (let period = 0; ; period++) {
    for (const { signal, value } of witness.find((entry) => entry.period === period)?.inputs ?? []) {
      const bit = 1 << Number(signal.slice(1));
      inputs = value === '1' ? inputs | bit : inputs & ~bit;
    }
    const next = nextState(circuit, state, inputs);
    if (period === last) return [state, next];
    state = next;
  }
}

describe('witnesses', () => {
  it.each([
    [{ bits: 3, longest: 2, hasLast: 'never', inputs: 2 }, 6000, 60],
    [{ bits: 4, longest: 2, hasLast: 'never', inputs: 1, clocking: 'flat' }, 7000, 60],
  ] as const)('lead to their transition: %o', (shape, from, count) => {
    let replayed = 0;
    for (let seed = from; seed < from + count; seed++) {
      const circuit = randomCircuit(randomFrom(seed), shape);
      for (const { registers, transitions } of glitchesIn(netlistOf(circuit)).glitches) {
        const names = registers.map(({ name }) => name);
        for (const transition of transitions.filter(({ witness }) => witness.length > 0)) {
          const [before, after] = replay(circuit, transition).map((state) => String(readBits(state, names)));
          expect({ seed, before, after }).toEqual({ seed, before: transition.from, after: transition.to });
          replayed += 1;
        }
      }
    }
    expect(replayed).toBeGreaterThan(20);
  });
});

describe('random circuits', () => {
  it.each([
    [{ bits: 2, longest: 3, hasLast: 'never' }, 1, 150],
    [{ bits: 3, longest: 3, hasLast: 'never' }, 1000, 150],
    [{ bits: 4, longest: 3, hasLast: 'never' }, 2000, 60],
    [{ bits: 3, longest: 3, hasLast: 'sometimes' }, 3000, 100],
    [{ bits: 3, longest: 3, hasLast: 'never', inputs: 2 }, 4000, 60],
    [{ bits: 3, longest: 2, hasLast: 'never', inputs: 2, clocking: 'flat' }, 5000, 100],
  ] as const)('%o', (shape, from, count) => {
    for (let seed = from; seed < from + count; seed++) {
      const { expected, found } = verdictsOf(seed, shape);
      expect({ seed, found }).toEqual({ seed, found: expected });
    }
  });
});
