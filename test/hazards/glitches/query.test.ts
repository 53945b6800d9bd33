// What is said of a signal in any state, reached or not, against trying every state, input and causal order: silence
// that is proven must be silence.

import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../../server/src/budget';
import { findCandidates } from '../../../server/src/hazards/glitch-candidates';
import { findEnds } from '../../../server/src/hazards/glitch-ends';
import { followStates } from '../../../server/src/hazards/glitch-follow';
import { groupCandidates } from '../../../server/src/hazards/glitch-groups';
import { createWorkshop } from '../../../server/src/hazards/glitch-parts';
import { askWhether } from '../../../server/src/hazards/glitch-query';
import { createStarts } from '../../../server/src/hazards/glitch-start';
import { createBitNames } from '../../../server/src/netlist/bit-names';
import { finished, predictionOf } from '../../predict/predicted';
import { outcomesFrom } from './oracle';
import { netlistOf, pinned, type RandomCircuit, randomCircuit, randomFrom } from './random-ripple';

/** The answer about `y`; null where it is no candidate: fewer than two bits decide it. */
function answerOf(circuit: RandomCircuit): 'cannot' | 'can' | 'open' | null {
  const netlist = netlistOf(circuit);
  const { network, prediction } = predictionOf(netlist);
  const names = createBitNames(netlist);
  const workshop = createWorkshop({ netlist, network, delaySet: prediction.delaySet });
  const candidates = finished(
    findCandidates(
      workshop,
      findEnds(netlist, network, () => null),
      names,
    ),
  );
  const candidate = candidates.find(({ signal }) => signal === 'y');
  if (candidate === undefined) return null;
  const limits = { ...limitDefaults, states: 1 };
  const isFixed = () => false;
  const starts = createStarts({ workshop, prediction, limits });
  const context = { workshop, prediction, names, limits, starts, isFixed, static: [] };
  const [group] = finished(groupCandidates([candidate], isFixed));
  if (group.whole === null) throw new Error('all bits can be followed');
  const { journey } = finished(followStates(context, group, group.whole, () => {}));
  return finished(askWhether(candidate.scene, journey, 10_000_000)).kind;
}

describe('a signal in any state', () => {
  it.each([
    [{ bits: 4, longest: 0, hasLast: 'never', inputs: 2, clocking: 'flat' }, 1, 150],
    [{ bits: 4, longest: 0, hasLast: 'never' }, 500, 150],
  ] as const)('%o', (shape, from, count) => {
    const tally = { cannot: 0, can: 0, open: 0 };
    for (let seed = from; seed < from + count; seed++) {
      // Without delays every order is possible in which an effect follows its cause.
      const circuit = pinned(randomCircuit(randomFrom(seed), shape), () => 0);
      const answer = answerOf(circuit);
      if (answer === null) continue;
      tally[answer] += 1;
      const every = Array.from({ length: 2 ** circuit.bits.length }, (_, state) => state);
      const isClean = [...outcomesFrom(circuit, every).values()].every((outcome) => outcome === 'clean');
      if (answer !== 'open') expect({ seed, answer }).toEqual({ seed, answer: isClean ? 'cannot' : 'can' });
    }
    expect(Math.min(tally.cannot, tally.can)).toBeGreaterThan(10);
    expect(tally.open).toBeLessThan(tally.cannot + tally.can);
  });
});
