// From which states a group is followed, and by which of the two ways.

import { readBit, rest, setSourceBit } from '../predict/settled';
import type { Group } from './glitch-groups';
import type { FreeInputs } from './glitch-inputs';
import { followLockstep, lockstepProgram } from './glitch-lockstep';
import type { LimitReached, OnEdge, StatesContext } from './glitch-states';
import { followWalk, type Place, putState, startWalk, takeState, type Walk, type WalkResult } from './glitch-walk';

export interface Followed {
  readonly inputs: FreeInputs;
  /** What kept it from following everything. */
  readonly limits: readonly LimitReached[];
  /** Followed in all, and begun from. */
  readonly states: number;
  readonly starts: number;
}

/** Register bits without reset or start value that are tried in every way; with more, only the start is followed. */
const mostOpenStarts = 10;

export function* followStates(context: StatesContext, group: Group, onEdge: OnEdge): Generator<void, Followed> {
  const walk = startWalk(context, group);
  const { inputs } = walk;
  const open = openStarts(context, group);
  const starts = startsToTry(context, walk, open.length > mostOpenStarts ? [] : open);
  const reached: LimitReached[] = [];
  if (!inputs.complete) reached.push('inputs');
  if (open.length > mostOpenStarts) reached.push('starts');
  const { states, limits } = yield* followFrom(context, group, walk, { starts, onEdge });
  return { inputs, limits: [...reached, ...limits], states, starts: starts.length };
}

function* followFrom(
  context: StatesContext,
  group: Group,
  walk: Walk,
  { starts, onEdge }: { readonly starts: readonly (() => void)[]; readonly onEdge: OnEdge },
): Generator<void, WalkResult> {
  const levels = levelsAtStart(context, group, walk);
  const plain = { levels, restLevel: walk.restLevel, inputs: walk.inputs };
  const program = walk.edges === 'one' ? lockstepProgram(context.workshop, group, plain) : null;
  if (program === null) return yield* followWalk(context, walk, starts, onEdge);
  const states = starts.map((begin) => {
    begin();
    return statesAt(context, group, walk);
  });
  const { limits } = context;
  return yield* followLockstep({ program, group, start: { ...plain, states }, limits, onEdge });
}

/** Register bits that neither a reset nor the text gives a start (definition 27: from every state, where there is none). */
function openStarts({ workshop, prediction }: StatesContext, group: Group): readonly number[] {
  const { logic, netlist, network } = workshop;
  return group.state.filter((variable) => {
    const { bit, kind } = logic.variables[variable];
    if (kind !== 'register') return false;
    const id = netlist.nodes.aux[bit.node];
    const { startFrom, constant } = prediction.registers[id];
    return startFrom === 'assumed' && !constant && network.registers[id].synchronous.length === 0;
  });
}

/** What puts the machine at the start, with the open bits set in every way. */
function startsToTry({ workshop }: StatesContext, walk: Walk, open: readonly number[]): (() => void)[] {
  const { machine } = walk;
  const bits = open.map((variable) => workshop.logic.variables[variable].bit);
  const base: Place = { state: takeState(walk), way: null, level: walk.restLevel };
  const usual = bits.map((bit) => readBit(machine, bit) & 1);
  return Array.from({ length: 2 ** bits.length }, (_, setting) => () => {
    putState(walk, base);
    bits.forEach((bit, index) => {
      setSourceBit(machine, bit, (usual[index] ^ ((setting >>> index) & 1)) as 0 | 1);
    });
    rest(machine);
  });
}

function levelsAtStart({ workshop }: StatesContext, group: Group, { machine }: Walk): Uint8Array {
  const { variables } = workshop.logic;
  const levels = new Uint8Array(variables.length);
  for (const variable of [...group.state, ...group.held, ...group.recorded]) {
    levels[variable] = readBit(machine, variables[variable].bit);
  }
  return levels;
}

function statesAt({ workshop }: StatesContext, group: Group, { machine }: Walk): Uint8Array {
  return Uint8Array.from(group.state, (variable) => readBit(machine, workshop.logic.variables[variable].bit));
}
