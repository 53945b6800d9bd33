// What one candidate sees of states followed in lockstep: the followed bits and the chosen inputs among its actors, as
// binary numbers, and which transitions between those it knows. Bits that are followed take both levels before and
// after an edge, chosen ones stay: so many different transitions there can be, and no more.

import { levelIn } from './glitch-inputs';
import { leastMoving, type Scene } from './glitch-scene';
import { sourcesOf } from './glitch-sources';
import { levelInState, type StateTable } from './glitch-state-table';
import type { Journey } from './glitch-states';

export interface View {
  /** Bits of the state among the actors. */
  readonly bits: readonly number[];
  /** By setting: the levels of the choices among the actors. */
  readonly chosen: Int32Array;
  /** By code after the edge, with the choices before it, and code before it: 1 where known; null: not kept. */
  readonly known: Uint8Array | null;
  /** By code before the edge: how many transitions there can still be that are not known and can tell something. */
  readonly open: Int32Array;
  /** Bits of a code that are sources of the signal, and how many of them must move for it to pulse. */
  readonly sources: number;
  readonly fewest: number;
}

/** Binary digits of two codes and choices up to which known transitions are kept. */
const longestCode = 16;

export function createView({ extent, inputs }: Journey, scene: Scene): View {
  const heard = new Set(scene.actors);
  const bits = [...extent.state.keys()].filter((bit) => heard.has(extent.state[bit]));
  const choices = [...inputs.choices.keys()].filter((choice) => heard.has(inputs.choices[choice].variable));
  const length = 2 * bits.length + choices.length;
  if (length > longestCode) return seesAll(inputs.settings);
  const chosen = Int32Array.from({ length: inputs.settings }, (_, setting) =>
    choices.reduce((code, choice) => 2 * code + levelIn(inputs, setting, choice), 0),
  );
  const origins = sourcesOf(scene);
  const sources = bits.reduce((mask, bit) => 2 * mask + (origins.includes(extent.state[bit]) ? 1 : 0), 0);
  // The clock itself moves at every edge.
  const fewest = leastMoving(scene) - origins.filter((variable) => scene.part(variable).kind === 'root').length;
  const after = Array.from({ length: 2 ** bits.length }, (_, code) => code);
  const telling = after.filter((code) => countOnes(code & sources) >= fewest).length * 2 ** choices.length;
  const open = new Int32Array(after.length).fill(telling);
  return { bits, chosen, known: new Uint8Array(2 ** length), open, sources, fewest };
}

function seesAll(settings: number): View {
  const open = Int32Array.of(1);
  return { bits: [], chosen: new Int32Array(settings), known: null, open, sources: 0, fewest: 0 };
}

/** The view's bits of a state, the first as the most significant. */
export function codeOf({ bits }: View, states: StateTable, state: number): number {
  let code = 0;
  for (let index = 0; index < bits.length; index++) code = 2 * code + levelInState(states, state, bits[index]);
  return code;
}

/** `after`: with the choices before it. */
export function keepKnown({ bits, known, open, sources, fewest }: View, before: number, after: number): void {
  if (known === null) return;
  known[(after << bits.length) | before] = 1;
  if (countOnes((before ^ after) & sources) >= fewest) open[before] -= 1;
}

function countOnes(number: number): number {
  let count = 0;
  for (let rest = number; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
