// Following states in lockstep: its parts against their plain definitions, and that leaving out what tells nothing new
// changes nothing of what is found.

import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../../server/src/budget';
import { findCandidates } from '../../../server/src/hazards/glitch-candidates';
import { findEnds } from '../../../server/src/hazards/glitch-ends';
import { followStates } from '../../../server/src/hazards/glitch-follow';
import { groupCandidates } from '../../../server/src/hazards/glitch-groups';
import { lockstepProgram } from '../../../server/src/hazards/glitch-lockstep-program';
import { createWorkshop } from '../../../server/src/hazards/glitch-parts';
import { createStarts } from '../../../server/src/hazards/glitch-start';
import { createStateTable, levelInState, numberOfState } from '../../../server/src/hazards/glitch-state-table';
import type { Knows } from '../../../server/src/hazards/glitch-states';
import { createJudge, type Tally } from '../../../server/src/hazards/glitch-tally';
import { transpose } from '../../../server/src/hazards/glitch-transpose';
import { createVerdicts, type Verdicts } from '../../../server/src/hazards/glitch-verdicts';
import { addWay, createWays, wayOut } from '../../../server/src/hazards/glitch-ways';
import { createBitNames } from '../../../server/src/netlist/bit-names';
import { finished, predictionOf } from '../../predict/predicted';
import {
  type Expression,
  netlistOf,
  pinned,
  type RandomBit,
  type RandomCircuit,
  randomCircuit,
  randomFrom,
} from './random-ripple';

describe('a square of bits', () => {
  it('is turned about its diagonal', () => {
    const random = randomFrom(7);
    const square = Int32Array.from({ length: 32 }, () => random(2 ** 32));
    const turned = square.slice();
    transpose(turned);
    const bitAt = (words: Int32Array, row: number, column: number) => (words[row] >>> column) & 1;
    for (let row = 0; row < 32; row++) {
      for (let column = 0; column < 32; column++) expect(bitAt(turned, column, row)).toBe(bitAt(square, row, column));
    }
  });
});

describe('a table of states', () => {
  it.each([1, 31, 33, 70])('numbers states of %i bits in the order in which they come', (bits) => {
    const random = randomFrom(bits);
    const table = createStateTable(bits);
    const numbers = new Map<string, number>();
    for (let count = 0; count < 3000; count++) {
      // Few different ones, so that most come again.
      const levels = Array.from({ length: bits }, (_, bit) => (bit < 11 || bit === bits - 1) && random(2) === 1);
      const words = new Int32Array(table.wordsPerState + 1);
      levels.forEach((isOne, bit) => {
        if (isOne) words[1 + (bit >>> 5)] |= 1 << (bit & 31);
      });
      const key = levels.join();
      const expected = numbers.get(key) ?? numbers.size;
      numbers.set(key, expected);
      expect(numberOfState(table, words, 1)).toBe(expected);
      expect(levels.map((_, bit) => levelInState(table, expected, bit) === 1)).toEqual(levels);
    }
    expect(table.count).toBe(numbers.size);
  });
});

describe('a way', () => {
  it('leads back to a state that was begun from, whoever asks first', () => {
    const ways = createWays();
    for (let state = 1; state < 3000; state++) addWay(ways, state, state - 1, state % 5);
    expect(wayOut(ways, 0, 3)).toEqual({ before: null, setting: 3, period: 0 });
    const long = wayOut(ways, 2999, 1);
    expect(long.period).toBe(2999);
    const short = wayOut(ways, 2, 4);
    expect(short).toEqual({
      before: { before: { before: null, setting: 1, period: 0 }, setting: 2, period: 1 },
      setting: 4,
      period: 2,
    });
    expect(wayOut(ways, 1500, 0).before).toBe(wayOut(ways, 1500, 2).before);
  });
});

interface Outcome {
  readonly tallies: readonly Tally[];
  readonly states: number;
  readonly shown: number;
}

/** `verdicts`: shared with other circuits; by default none are. */
function outcomeOf(circuit: RandomCircuit, whoKnows: 'nobody' | 'judges', verdicts?: Verdicts): Outcome | null {
  const netlist = netlistOf(circuit);
  const { network, prediction } = predictionOf(netlist);
  const names = createBitNames(netlist);
  const workshop = createWorkshop({ netlist, network, delaySet: prediction.delaySet });
  const ends = findEnds(netlist, network, () => null);
  const candidates = finished(findCandidates(workshop, ends, names));
  const isFixed = () => false;
  const [group] = finished(groupCandidates(candidates, isFixed));
  if (group?.whole == null) return null;
  const limits = limitDefaults;
  const starts = createStarts({ workshop, prediction, limits });
  const context = { workshop, prediction, names, limits, starts, isFixed, static: [] };
  const judges = group.candidates.map((candidate) =>
    createJudge(candidate, candidate.scene.observed, { limits, verdicts: verdicts ?? createVerdicts() }),
  );
  let shown = 0;
  const knows: Knows = (candidate, transition) => whoKnows === 'judges' && judges[candidate].knows(transition);
  const followed = finished(
    followStates(
      context,
      group,
      group.whole,
      (transition, way) => {
        shown += 1;
        for (const judge of judges) judge.look(transition, way);
      },
      knows,
    ),
  );
  if (lockstepProgram(workshop, followed.journey) === null) return null;
  const { inputs } = followed.journey;
  return { tallies: judges.map((judge) => judge.tally(inputs)), states: followed.states, shown };
}

function foundIn({ tallies }: Outcome): unknown {
  return tallies.map(({ certain, possible, settled, limits, judged }) => ({
    certain: certain.map(({ inputs, ...found }) => found),
    possible: possible.map(({ inputs, ...found }) => found),
    settled,
    limits,
    judged,
  }));
}

describe('what tells nothing new', () => {
  it('can be left out', () => {
    const shared = createVerdicts();
    let [compared, shortened] = [0, 0];
    for (let seed = 1; seed <= 60; seed++) {
      const shape = { bits: 6, longest: 2, hasLast: 'never', inputs: 3, clocking: 'flat' } as const;
      const circuit = pinned(randomCircuit(randomFrom(seed), shape), () => 1000);
      const all = outcomeOf(circuit, 'nobody');
      const some = outcomeOf(circuit, 'judges', shared);
      if (all === null || some === null) continue;
      expect({ seed, found: foundIn(some) }).toEqual({ seed, found: foundIn(all) });
      compared += 1;
      if (some.shown < all.shown) shortened += 1;
    }
    expect(compared).toBeGreaterThan(30);
    expect(shortened).toBeGreaterThan(10);
  });

  it('ends the search once it is all that can come', () => {
    const circuit = shiftersIntoTwo(8);
    const [all, some] = [outcomeOf(circuit, 'nobody'), outcomeOf(circuit, 'judges')];
    expect(all?.states).toBe(2 ** 10);
    expect(some?.states).toBeLessThan(2 ** 10);
    expect(some && foundIn(some)).toEqual(all && foundIn(all));
    // Both bits move, towards each other or together: four different transitions.
    expect(some?.tallies.map(({ judged }) => judged)).toEqual([4]);
  });
});

/** Two bits that take inputs, turned by the end of a row of bits that an input is shifted into; decoded by an AND. */
function shiftersIntoTwo(length: number): RandomCircuit {
  const triple = { min: 1000, typ: 1000, max: 1000 };
  const bit = (next: Expression): RandomBit => ({ clock: null, edge: 'rising', next, rise: triple, fall: triple });
  const source = (index: number): Expression => ({ kind: 'bit', bit: index });
  const count = length + 2;
  const turned = (input: number): Expression => ({
    kind: 'xor',
    left: source(count + input),
    right: source(count - 1),
  });
  const row = Array.from({ length }, (_, index) => bit(source(index === 0 ? count + 2 : index + 1)));
  const decode: Expression = { kind: 'and', left: source(0), right: source(1) };
  return { inputs: 3, bits: [bit(turned(0)), bit(turned(1)), ...row], decode, last: null };
}
