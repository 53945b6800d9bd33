// Follows the states of a group within one extent, from every state to begin from, by the cheaper of two ways.

import { readBit } from '../predict/settled';
import type { Extent, Group } from './glitch-groups';
import { freeInputs } from './glitch-inputs';
import { followLockstep } from './glitch-lockstep';
import { lockstepProgram } from './glitch-lockstep-program';
import type { Workshop } from './glitch-parts';
import type { Journey, Knows, LimitReached, OnEdge, StatesContext } from './glitch-states';
import { followWalk } from './glitch-walk';

export interface Followed {
  readonly journey: Journey;
  readonly how: 'lockstep' | 'walk';
  /** What kept it from following everything; nothing where all that there can be was seen before. */
  readonly limits: readonly LimitReached[];
  /** Followed in all, and begun from. */
  readonly states: number;
  readonly starts: number;
}

/** Register bits without reset or start value that are tried in every way; with more, only the start is followed. */
const mostOpenStarts = 10;

/** What is followed from where, and what of it cannot be tried in every way. */
export interface Departure {
  readonly journey: Journey;
  readonly limits: readonly LimitReached[];
}

export function departureOf(context: StatesContext, group: Group, extent: Extent): Departure {
  const levels = levelsAtStart(context, group, extent);
  const inputs = freeInputs(context, extent, levels);
  const open = openStarts(context, extent);
  const states = statesToTry(extent, levels, open.length > mostOpenStarts ? [] : open);
  const limits: LimitReached[] = [];
  if (!inputs.complete) limits.push('inputs');
  if (open.length > mostOpenStarts) limits.push('starts');
  return { journey: { group, extent, inputs, levels, states, ...edgesOf(context.workshop, extent) }, limits };
}

/** With `knows`, what tells nothing new is not shown, and it ends where there can be nothing new. */
export function* followStates(
  context: StatesContext,
  group: Group,
  extent: Extent,
  onEdge: OnEdge,
  knows: Knows = () => false,
): Generator<void, Followed> {
  const { journey, limits } = departureOf(context, group, extent);
  const program = lockstepProgram(context.workshop, journey);
  const result =
    program === null
      ? yield* followWalk(context, journey, onEdge)
      : yield* followLockstep({ program, journey, limits: context.limits, onEdge, knows });
  return {
    journey,
    how: program === null ? 'walk' : 'lockstep',
    limits: result.sawAll ? [] : [...limits, ...result.limits],
    states: result.states,
    starts: journey.states.length,
  };
}

function levelsAtStart({ workshop, starts }: StatesContext, group: Group, { state, held }: Extent): Uint8Array {
  const { variables } = workshop.logic;
  const machine = starts.at(group.root);
  const levels = new Uint8Array(variables.length);
  for (const variable of [...state, ...held, ...group.recorded]) {
    levels[variable] = readBit(machine, variables[variable].bit);
  }
  return levels;
}

/** Register bits that neither a reset nor the text gives a start (definition 27: from every state, where there is none). */
function openStarts({ workshop, prediction }: StatesContext, { state }: Extent): readonly number[] {
  const { logic, netlist, network } = workshop;
  return state.filter((variable) => {
    const { bit, kind } = logic.variables[variable];
    if (kind !== 'register') return false;
    const id = netlist.nodes.aux[bit.node];
    return prediction.registers[id].startFrom === 'assumed' && network.registers[id].synchronous.length === 0;
  });
}

/** The start, with the open bits set in every way; as they are assumed comes first. */
function statesToTry({ state }: Extent, levels: Uint8Array, open: readonly number[]): readonly Uint8Array[] {
  const usual = Uint8Array.from(state, (variable) => levels[variable]);
  const places = open.map((variable) => state.indexOf(variable));
  return Array.from({ length: 2 ** open.length }, (_, setting) => {
    const levelsOfOne = usual.slice();
    places.forEach((place, index) => {
      if (((setting >>> index) & 1) === 1) levelsOfOne[place] = levelsOfOne[place] === 1 ? 0 : 1;
    });
    return levelsOfOne;
  });
}

/** Which edges of the root anything in the state follows; latches follow both. */
function edgesOf({ logic, netlist, network }: Workshop, { state }: Extent): Pick<Journey, 'edges' | 'restLevel'> {
  const followed = new Set(
    state.map((variable) => {
      const { bit, kind } = logic.variables[variable];
      return kind === 'register' ? (network.registers[netlist.nodes.aux[bit.node]].root?.edge ?? 'either') : 'either';
    }),
  );
  if (followed.size === 1 && followed.has('rising')) return { edges: 'one', restLevel: 0 };
  if (followed.size === 1 && followed.has('falling')) return { edges: 'one', restLevel: 1 };
  return { edges: 'both', restLevel: 0 };
}
