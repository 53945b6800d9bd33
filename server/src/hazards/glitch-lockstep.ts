// Follows states of registers that all sample the same edge of the root itself, many at once: the next state is a
// function of state and inputs, tried for 32 settings to a word. What such a group may not have stands at
// `lockstepProgram`; everything else is walked by the settled stepper (`glitch-walk.ts`).

import type { Limits } from '../budget';
import { createBench, nextStates } from './glitch-lockstep-bench';
import { createEdge } from './glitch-lockstep-edge';
import { levelIn } from './glitch-inputs';
import type { Program } from './glitch-program';
import { createShown, type Shown } from './glitch-shown';
import { createStateTable, numberOfState, type StateTable } from './glitch-state-table';
import type { FollowResult, Journey, Knows, LimitReached, OnEdge } from './glitch-states';
import { addWay, createWays, wayOut } from './glitch-ways';

/** Lanes per state that the limit allows, and gates evaluated for it. */
const lanesPerState = 16;
const gatesPerState = 8192;

export interface LockstepRun {
  readonly program: Program;
  readonly journey: Journey;
  readonly limits: Limits;
  readonly onEdge: OnEdge;
  readonly knows: Knows;
}

export function* followLockstep(run: LockstepRun): Generator<void, FollowResult> {
  const { program, journey, limits } = run;
  const { settings } = journey.inputs;
  const bench = createBench(program, journey);
  const table = statesAtStart(journey);
  const shown = createShown(journey);
  const showEdges = createShow(run, table, shown);
  const ended = (reached: readonly LimitReached[], sawAll = false) => ({
    states: table.count,
    limits: reached,
    sawAll,
  });
  let lanes = 0;
  for (let first = 0; first < table.count; ) {
    const count = Math.min(bench.places, table.count - first);
    const next = nextStates(bench, table, first, count);
    for (let place = 0; place < count; place++) showEdges(first + place, next, place * settings * table.wordsPerState);
    first += count;
    lanes += count * settings;
    yield;
    if (shown.isOver()) return ended([], true);
    if (table.count > limits.states) return ended(['states']);
    const isSpent = lanes > lanesPerState * limits.states || lanes * program.count > gatesPerState * limits.states;
    if (isSpent) return ended(['work']);
  }
  return ended([]);
}

/** Shows the edges out of one state and adds the states they lead to. `from`: of its first setting in `next`. */
function createShow({ journey, onEdge, knows }: LockstepRun, table: StateTable, shown: Shown) {
  const { settings } = journey.inputs;
  const { wordsPerState } = table;
  const told = toldSettings(journey);
  const edge = createEdge(journey);
  const ways = createWays();
  // Settings that lead to one state and look alike to every candidate are one.
  const met = new Set<number>();
  return (state: number, next: Int32Array, from: number): void => {
    const canTell = shown.leave(table, state);
    if (canTell) edge.leave(table, state);
    met.clear();
    for (let setting = 0; setting < settings; setting++) {
      const known = table.count;
      const into = numberOfState(table, next, from + setting * wordsPerState);
      if (into === known) addWay(ways, into, state, setting);
      if (!canTell || !shown.isNew(table, into, setting)) continue;
      const kind = into * settings + told[setting];
      if (met.has(kind)) continue;
      met.add(kind);
      const transition = edge.enter(table, into, setting);
      onEdge(transition, wayOut(ways, state, setting));
      shown.keep((candidate) => knows(candidate, transition));
    }
  };
}

function statesAtStart({ states, extent }: Journey): StateTable {
  const table = createStateTable(extent.state.length);
  for (const levels of states) numberOfState(table, packed(levels, table.wordsPerState), 0);
  return table;
}

function packed(levels: Uint8Array, count: number): Int32Array {
  const words = new Int32Array(count);
  levels.forEach((level, bit) => {
    words[bit >>> 5] |= level << (bit & 31);
  });
  return words;
}

/** By setting: a number for the choices that some candidate hears itself, which are transitions of their own. */
function toldSettings({ group, inputs }: Journey): Int32Array {
  const heard = new Set(group.candidates.flatMap(({ scene }) => scene.actors));
  const told = [...inputs.choices.keys()].filter((choice) => heard.has(inputs.choices[choice].variable));
  const numbers = new Map<string, number>();
  return Int32Array.from({ length: inputs.settings }, (_, setting) => {
    const key = told.map((choice) => levelIn(inputs, setting, choice)).join('');
    const number = numbers.get(key) ?? numbers.size;
    numbers.set(key, number);
    return number;
  });
}
