// Works out the next states of several places at once: each place has a lane per setting of the inputs, 32 lanes to a
// word. Words of inputs and of what is held are filled once, those of the state for every batch.

import { type FreeInputs, levelIn } from './glitch-inputs';
import { type Program, runProgram, setPlace } from './glitch-program';
import { levelInState, type StateTable } from './glitch-state-table';
import type { Journey } from './glitch-states';
import { transpose } from './glitch-transpose';

const mostLanes = 1024;

export interface Bench {
  readonly program: Program;
  readonly settings: number;
  /** Places of the journey to a batch. */
  readonly places: number;
  /** The program's words, once per 32 lanes. */
  readonly words: Int32Array;
  readonly stateLoads: readonly { readonly place: number; readonly bit: number }[];
  /** Next states by lane, packed as the table has them. */
  readonly found: Int32Array;
  /** 32 bits of 32 lanes while they are turned. */
  readonly square: Int32Array;
}

export function createBench(program: Program, { inputs, levels, extent }: Journey): Bench {
  const { settings, choices } = inputs;
  const places = Math.max(1, Math.floor(mostLanes / settings));
  const rounds = Math.ceil((places * settings) / 32);
  const words = new Int32Array(2 * program.count * rounds);
  for (let round = 0; round < rounds; round++) setPlace(words, 2 * program.count * round, 0, 0);
  const bitOf = new Map(extent.state.map((variable, bit) => [variable, bit]));
  const choiceOf = new Map(choices.map(({ variable }, choice) => [variable, choice]));
  const stateLoads: { place: number; bit: number }[] = [];
  for (const { variable, place } of program.loads) {
    const bit = bitOf.get(variable);
    if (bit !== undefined) {
      stateLoads.push({ place, bit });
      continue;
    }
    const choice = choiceOf.get(variable);
    for (let round = 0; round < rounds; round++) {
      const word = choice === undefined ? -levels[variable] : chosenWord(inputs, choice, round);
      setPlace(words, 2 * program.count * round, place, word);
    }
  }
  const found = new Int32Array(32 * rounds * Math.max(1, Math.ceil(extent.state.length / 32)));
  return { program, settings, places, words, stateLoads, found, square: new Int32Array(32) };
}

function chosenWord(inputs: FreeInputs, choice: number, round: number): number {
  let word = 0;
  for (let lane = 0; lane < 32; lane++) {
    word |= levelIn(inputs, (32 * round + lane) % inputs.settings, choice) << lane;
  }
  return word;
}

/** Of `count` states of the table from `first`; by place, then by setting. */
export function nextStates(bench: Bench, table: StateTable, first: number, count: number): Int32Array {
  const rounds = Math.ceil((count * bench.settings) / 32);
  for (let round = 0; round < rounds; round++) {
    loadStates(bench, table, first, count, round);
    runProgram(bench.program, bench.words, 2 * bench.program.count * round);
    packLanes(bench, table.wordsPerState, round);
  }
  return bench.found;
}

/** Settings are a power of two: the 32 lanes belong to one place, or to whole places. */
function loadStates(bench: Bench, table: StateTable, first: number, count: number, round: number): void {
  const { settings, stateLoads, words, program } = bench;
  const from = Math.floor((32 * round) / settings);
  const until = Math.min(count, Math.ceil((32 * (round + 1)) / settings));
  const ofOne = settings >= 32 ? -1 : 2 ** settings - 1;
  for (const { place, bit } of stateLoads) {
    let word = 0;
    for (let index = from; index < until; index++) {
      if (levelInState(table, first + index, bit) === 1) word |= ofOne << ((index - from) * settings);
    }
    setPlace(words, 2 * program.count * round, place, word);
  }
}

function packLanes({ program, words, found, square }: Bench, wordsPerState: number, round: number): void {
  const { results, count } = program;
  for (let part = 0; part < wordsPerState; part++) {
    square.fill(0);
    results.subarray(32 * part, 32 * part + 32).forEach((result, bit) => {
      square[bit] = words[2 * count * round + result];
    });
    transpose(square);
    for (let lane = 0; lane < 32; lane++) found[(32 * round + lane) * wordsPerState + part] = square[lane];
  }
}
