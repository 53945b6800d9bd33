// Follows states of registers that all sample the same edge of the root itself, many at once: the next state is a
// function of state and inputs, tried for 32 settings to a word. What such a group may not have stands at
// `lockstepProgram`; everything else is walked by the settled stepper (`glitch-walk.ts`).

import type { Limits } from '../budget';
import { mostDifferent } from './glitch-different';
import { createBench, nextStates } from './glitch-lockstep-bench';
import { createEdge } from './glitch-lockstep-edge';
import { levelIn } from './glitch-inputs';
import type { Program } from './glitch-program';
import { createStateTable, numberOfState, type StateTable } from './glitch-state-table';
import type { FollowResult, Journey, Judged, OnEdge, Way } from './glitch-states';

/** Lanes per state that the limit allows, and gates evaluated for it. */
const lanesPerState = 16;
const gatesPerState = 8192;

export interface LockstepRun {
  readonly program: Program;
  readonly journey: Journey;
  readonly limits: Limits;
  readonly onEdge: OnEdge;
  readonly judged: Judged;
}

export function* followLockstep({
  program,
  journey,
  limits,
  onEdge,
  judged,
}: LockstepRun): Generator<void, FollowResult> {
  const { settings } = journey.inputs;
  const { candidates } = journey.group;
  const told = toldSettings(journey);
  const edge = createEdge(journey);
  const bench = createBench(program, journey);
  const table = statesAtStart(journey);
  const ways: (Way | null)[] = Array.from({ length: table.count }, () => null);
  const different = candidates.map(({ scene }) => mostDifferent(journey, scene));
  let lanes = 0;
  for (let first = 0; first < table.count; ) {
    const count = Math.min(bench.places, table.count - first);
    lanes += count * settings;
    const next = nextStates(bench, table, first, count);
    for (let place = 0; place < count; place++) {
      const state = first + place;
      const before = ways[state];
      edge.leave(table, state);
      const met = new Set<number>();
      for (let setting = 0; setting < settings; setting++) {
        const from = (place * settings + setting) * table.wordsPerState;
        const into = numberOfState(table, next, from);
        // Settings that lead to one state and look alike to every candidate are one.
        const kind = into * settings + told[setting];
        if (met.has(kind)) continue;
        met.add(kind);
        const way: Way = { before, setting, period: before === null ? 0 : before.period + 1 };
        onEdge(edge.enter(table, into, setting), way);
        if (into === ways.length) ways.push(way);
      }
    }
    first += count;
    yield;
    if (different.every((most, index) => judged(index) === most)) {
      return { states: table.count, limits: [], sawAll: true };
    }
    if (table.count > limits.states) return { states: table.count, limits: ['states'], sawAll: false };
    const isSpent = lanes > lanesPerState * limits.states || lanes * program.count > gatesPerState * limits.states;
    if (isSpent) return { states: table.count, limits: ['work'], sawAll: false };
  }
  return { states: table.count, limits: [], sawAll: false };
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
