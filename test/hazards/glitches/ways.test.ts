// The ways of judging one transition agree where more than one applies; and the width told holds every width that some
// choice of delays gives.

import { describe, expect, it } from 'vitest';
import { budget, limitDefaults } from '../../../server/src/budget';
import { findClocks } from '../../../server/src/clocks/find-clocks';
import { blocksOf } from '../../../server/src/hazards/glitch-blocks';
import { timeForest } from '../../../server/src/hazards/glitch-case';
import { forestOf, type Transition } from '../../../server/src/hazards/glitch-forest';
import { forestWorld } from '../../../server/src/hazards/glitch-forest-world';
import { literalOf } from '../../../server/src/hazards/glitch-logic';
import { tryOrders } from '../../../server/src/hazards/glitch-orders';
import { createParts, createWorkshop } from '../../../server/src/hazards/glitch-parts';
import { createScene, type Scene } from '../../../server/src/hazards/glitch-scene';
import { judgeTransition } from '../../../server/src/hazards/glitch-verdict';
import { judgeWide } from '../../../server/src/hazards/glitch-wide';
import { nothingStated } from '../../clocks/describe-clocks';
import { finished, flipFlops } from '../../predict/predicted';
import { widthsOf } from './oracle';
import { glitchesIn } from './glitched';
import { netlistOf, type RandomCircuit, randomCircuit, randomFrom } from './random-ripple';

function sceneOf(circuit: RandomCircuit): Scene {
  const netlist = netlistOf(circuit);
  const network = finished(findClocks(netlist, nothingStated));
  const workshop = createWorkshop({ netlist, network, delaySet: flipFlops(0) });
  const output = netlist.signals.find(({ name }) => name === 'y');
  if (output === undefined) throw new Error('no y');
  return createScene(workshop, 0, createParts(workshop, 0), literalOf(workshop.logic, { node: output.node, bit: 0 }));
}

/** Every pair of states, as levels by variable. */
function* transitionsOf(scene: Scene, bits: number): Generator<Transition> {
  const { variables } = scene.workshop.logic;
  // Each bit is a register of its own: its place in the state is its variable's signal bit.
  const registers = scene.workshop.netlist.registers;
  const at = (state: number, root: number) =>
    Uint8Array.from(variables, ({ kind, bit }) => {
      const register = registers[scene.workshop.netlist.nodes.aux[bit.node]];
      return kind === 'register' ? (state >>> (register.low + bit.bit)) & 1 : root;
    });
  for (let from = 0; from < 2 ** bits; from++) {
    for (let to = 0; to < 2 ** bits; to++) {
      if (from !== to) yield { before: at(from, 1), after: at(to, 0), restless: new Set() };
    }
  }
}

describe('ways of judging', () => {
  it('blocks, every order and a question agree on bits of one clock', () => {
    const tally = { clean: 0, possible: 0, certain: 0 };
    for (let seed = 1; seed <= 25; seed++) {
      const circuit = randomCircuit(randomFrom(seed), { bits: 4, longest: 2, hasLast: 'never', clocking: 'flat' });
      const scene = sceneOf(circuit);
      for (const transition of transitionsOf(scene, 4)) {
        const forest = forestOf(scene, transition);
        if (forest === null) throw new Error('a forest');
        const timed = timeForest(forest);
        const observed = [...forest.keys()].filter((event) => scene.observed.includes(forest[event].variable));
        const world = forestWorld(scene, transition, timed, observed);
        const orders = tryOrders(world, scene.inertia, budget({ ...limitDefaults, states: 100_000 }, 'states'));
        const judged = judgeTransition(scene, transition, limitDefaults);
        const expected = orders.certain ? 'certain' : orders.possible ? 'possible' : 'clean';
        expect({ seed, kind: judged?.kind }).toEqual({ seed, kind: expected });
        tally[expected] += 1;
        const blocks = blocksOf(timed, observed);
        if (blocks.together === null || !blocks.areApart) continue;
        const wide = judgeWide({ scene, transition, timed, observed }, blocks, 1_000_000);
        const asked =
          wide === 'open' ? 'open' : wide.found.certain ? 'certain' : wide.found.possible ? 'possible' : 'clean';
        expect({ seed, asked }).toEqual({ seed, asked: expected });
      }
    }
    expect(Math.min(tally.clean, tally.possible, tally.certain)).toBeGreaterThan(20);
  });
});

describe('the width of a pulse', () => {
  it('holds what every choice of delays gives', () => {
    let seen = 0;
    for (let seed = 300; seed < 420; seed++) {
      const circuit = randomCircuit(randomFrom(seed), { bits: 3, longest: 3, hasLast: 'sometimes' });
      const widths = widthsOf(circuit);
      for (const { registers, transitions, certainty } of glitchesIn(netlistOf(circuit)).glitches) {
        if (registers.length !== circuit.bits.length) continue;
        for (const { from, to, pulse } of transitions) {
          const found = widths.get(`${from}>${to}`);
          if (found === undefined) continue;
          expect({ seed, from, most: found.max <= pulse.max }).toEqual({ seed, from, most: true });
          if (certainty === 'certain') {
            expect({ seed, from, least: found.min >= pulse.min }).toEqual({ seed, from, least: true });
          }
          seen += 1;
        }
      }
    }
    expect(seen).toBeGreaterThan(20);
  });
});
