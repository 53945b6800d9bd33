// Follows states of registers that all sample the same edge of the root itself, many at once: the next state is a
// function of state and inputs, tried for 32 settings to a word. What such a group may not have stands at
// `lockstepProgram`; everything else is walked by the settled stepper (`glitch-walk.ts`).

import type { Limits } from '../budget';
import type { Transition } from './glitch-forest';
import { GateKind, gateOf, zeroLiteral } from './glitch-gates';
import { levelIn } from './glitch-inputs';
import { type StoredPart, supportOf, type Workshop } from './glitch-parts';
import { compileProgram, type Program, runProgram } from './glitch-program';
import type { FollowResult, Journey, OnEdge, Way } from './glitch-states';

/**
 * The next state as a program; null unless every register is clocked by the root as it is, at the edge from
 * `restLevel`; no control can act; nothing takes time on the way, is a latch, a memory word or not spelled out; and
 * every level is known.
 */
export function lockstepProgram(workshop: Workshop, journey: Journey): Program | null {
  const { group, extent, levels, edges } = journey;
  const parts = extent.state.map((variable) => group.part(variable));
  const isPlain = parts.every(
    (part) =>
      part.kind === 'register' && isClockedAt(workshop, journey, part) && isFreeOfControls(workshop, journey, part),
  );
  if (edges !== 'one' || !isPlain) return null;
  if ([...extent.state, ...extent.held].some((variable) => levels[variable] > 1)) return null;
  const data = parts.map((part) => (part as StoredPart).data);
  const known = new Set([...extent.state, ...extent.held]);
  const heard = [...data.flatMap((literal) => supportOf(workshop, literal)), ...group.recorded];
  // What is recorded beyond the extent only stands still here: bits cut off are among the held ones.
  const isKnown = heard.every((variable) => known.has(variable) || group.part(variable).kind === 'root');
  return isKnown ? compileProgram(workshop.logic.gates, data) : null;
}

const mostLanes = 1024;
/** Lanes per state that the limit allows, and gates evaluated for it. */
const lanesPerState = 16;
const gatesPerState = 8192;

export interface LockstepRun {
  readonly program: Program;
  readonly journey: Journey;
  readonly limits: Limits;
  readonly onEdge: OnEdge;
}

export function* followLockstep(run: LockstepRun): Generator<void, FollowResult> {
  const { program, journey, limits, onEdge } = run;
  const { settings } = journey.inputs;
  const told = toldSettings(journey);
  const edge = createEdge(journey);
  const bench = createBench(run);
  const seen = new Set<string>();
  const waiting: Place[] = [];
  const enter = (state: Int32Array, way: Way | null): void => {
    const key = String.fromCharCode(...state);
    if (seen.has(key)) return;
    seen.add(key);
    waiting.push({ state, way });
  };
  for (const state of journey.states) enter(packed(state), null);
  let lanes = 0;
  for (let next = 0; next < waiting.length; ) {
    const places = waiting.slice(next, next + bench.places);
    next += places.length;
    lanes += places.length * settings;
    const results = runPlaces(bench, places);
    for (const [index, place] of places.entries()) {
      for (const setting of differentSettings(results, index * settings, told)) {
        const state = results.slice(index * settings + setting);
        const way: Way = { before: place.way, setting, period: place.way === null ? 0 : place.way.period + 1 };
        onEdge(edge(place.state, state, setting), way);
        enter(state, way);
      }
    }
    yield;
    if (seen.size > limits.states) return { states: seen.size, limits: ['states'] };
    const isSpent = lanes > lanesPerState * limits.states || lanes * program.count > gatesPerState * limits.states;
    if (isSpent) return { states: seen.size, limits: ['work'] };
  }
  return { states: seen.size, limits: [] };
}

interface Place {
  /** 16 bits of the state to an element. */
  readonly state: Int32Array;
  readonly way: Way | null;
}

function packed(state: Uint8Array): Int32Array {
  const words = new Int32Array(Math.ceil(state.length / 16));
  state.forEach((level, index) => {
    words[index >>> 4] |= level << (index & 15);
  });
  return words;
}

function levelOf(state: Int32Array, index: number): number {
  return (state[index >>> 4] >>> (index & 15)) & 1;
}

/** Planes that are used for one batch of places after the other; every place has a lane per setting. */
interface Bench {
  readonly program: Program;
  readonly settings: number;
  /** Places to a batch. */
  readonly places: number;
  readonly words: number;
  readonly planes: Int32Array;
  readonly stateLoads: readonly { readonly place: number; readonly index: number }[];
  readonly wordsPerLane: number;
}

/** Planes of inputs and of what is held are the same for every batch. */
function createBench({ program, journey }: LockstepRun): Bench {
  const { inputs, levels } = journey;
  const { state } = journey.extent;
  const { settings, choices } = inputs;
  const places = Math.max(1, Math.floor(mostLanes / settings));
  const words = Math.ceil((places * settings) / 32);
  const planes = new Int32Array(program.count * words);
  const stateIndex = new Map(state.map((variable, index) => [variable, index]));
  const choiceIndex = new Map(choices.map(({ variable }, index) => [variable, index]));
  const stateLoads: { place: number; index: number }[] = [];
  for (const { variable, place } of program.loads) {
    const index = stateIndex.get(variable);
    if (index !== undefined) {
      stateLoads.push({ place, index });
      continue;
    }
    const choice = choiceIndex.get(variable);
    for (let lane = 0; lane < 32 * words; lane++) {
      const level = choice === undefined ? levels[variable] : levelIn(inputs, lane % settings, choice);
      planes[place * words + (lane >>> 5)] |= level << (lane & 31);
    }
  }
  return { program, settings, places, words, planes, stateLoads, wordsPerLane: Math.ceil(state.length / 16) };
}

/** Next states by lane, packed. */
interface Results {
  readonly wordsPerLane: number;
  readonly words: Int32Array;
  slice(lane: number): Int32Array;
}

function runPlaces(bench: Bench, places: readonly Place[]): Results {
  const { program, settings, words, planes, stateLoads, wordsPerLane } = bench;
  for (const { place, index } of stateLoads) {
    planes.fill(0, place * words, (place + 1) * words);
    places.forEach(({ state }, number) => {
      if (levelOf(state, index) === 1) setLanes(planes, place * words, number * settings, settings);
    });
  }
  runProgram(program, planes, words);
  const lanes = places.length * settings;
  const found = new Int32Array(lanes * wordsPerLane);
  program.results.forEach((result, bit) => {
    const from = (result >>> 1) * words;
    const flip = result & 1;
    for (let lane = 0, into = bit >>> 4; lane < lanes; lane++, into += wordsPerLane) {
      found[into] |= (((planes[from + (lane >>> 5)] >>> (lane & 31)) & 1) ^ flip) << (bit & 15);
    }
  });
  const slice = (lane: number) => found.slice(lane * wordsPerLane, (lane + 1) * wordsPerLane);
  return { wordsPerLane, words: found, slice };
}

/** `count` is a power of two and `first` a multiple of it. */
function setLanes(planes: Int32Array, from: number, first: number, count: number): void {
  if (count >= 32) planes.fill(-1, from + first / 32, from + (first + count) / 32);
  else planes[from + (first >>> 5)] |= (2 ** count - 1) << (first & 31);
}

/** The first setting of each kind: those that lead to one state and look alike to every candidate are one. */
function differentSettings({ words, wordsPerLane }: Results, first: number, told: Int32Array): readonly number[] {
  const different: number[] = [];
  for (let setting = 0; setting < told.length; setting++) {
    const from = (first + setting) * wordsPerLane;
    const isKnown = different.some((other) => {
      if (told[other] !== told[setting]) return false;
      const otherFrom = (first + other) * wordsPerLane;
      for (let word = 0; word < wordsPerLane; word++) if (words[from + word] !== words[otherFrom + word]) return false;
      return true;
    });
    if (!isKnown) different.push(setting);
  }
  return different;
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

/** Levels around an edge; the arrays are used again. */
function createEdge({ group, extent, levels, restLevel, inputs }: Journey) {
  const before = levels.slice();
  const after = levels.slice();
  for (const variable of group.recorded) {
    if (group.part(variable).kind !== 'root') continue;
    before[variable] = restLevel;
    after[variable] = 1 - restLevel;
  }
  const transition: Transition = { before, after, restless: new Set() };
  return (from: Int32Array, to: Int32Array, setting: number): Transition => {
    extent.state.forEach((variable, index) => {
      before[variable] = levelOf(from, index);
      after[variable] = levelOf(to, index);
    });
    inputs.choices.forEach(({ variable }, choice) => {
      before[variable] = levelIn(inputs, setting, choice);
      after[variable] = before[variable];
    });
    return transition;
  };
}

function isClockedAt({ logic }: Workshop, { group, restLevel }: Journey, { trigger }: StoredPart): boolean {
  const gate = gateOf(trigger);
  if (logic.gates.kind[gate] !== GateKind.variable || group.part(logic.gates.a[gate]).kind !== 'root') return false;
  return (trigger & 1) === restLevel;
}

/** Controls are tied, or a port that is not chosen, and inactive; anything else is left to the stepper. */
export function isFreeOfControls({ logic }: Workshop, { levels, inputs }: Journey, { controls }: StoredPart): boolean {
  return controls.every(({ active }) => {
    if (active === zeroLiteral) return true;
    const gate = gateOf(active);
    if (logic.gates.kind[gate] !== GateKind.variable) return false;
    const port = logic.gates.a[gate];
    const isChosen = inputs.choices.some(({ variable }) => variable === port);
    return !isChosen && logic.variables[port].kind === 'input' && (levels[port] ^ (active & 1)) === 0;
  });
}
