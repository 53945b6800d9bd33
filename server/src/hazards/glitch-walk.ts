// Follows states with the settled stepper, one edge at a time: for chains, latches, gates in clock paths, controls that
// act by themselves, registers of both edges. Where nothing is to be chosen it simply runs on.

import type { Bits } from '../netlist/four-state';
import type { Bit, NodeId } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import { createLogicDelays } from '../predict/arrival-logic';
import { createTransferOrder } from '../predict/arrival-order';
import { advance, readBit, readNode, rest, setSourceBit, setState } from '../predict/settled';
import { beginUnderDrive, inputNodesOf, isHeard, setReset } from '../predict/settled-drive';
import { createMachine, type SettledMachine } from '../predict/settled-machine';
import { planSettled } from '../predict/settled-plan';
import { startsOf } from '../predict/start';
import type { Transition } from './glitch-forest';
import type { Group } from './glitch-groups';
import { choose, type FreeInputs, freeInputs } from './glitch-inputs';
import type { LimitReached, OnEdge, StatesContext, Way } from './glitch-states';

/** Evaluations of nodes per state that the limit allows. */
const workPerState = 8;
const edgesPerTurn = 64;

export interface WalkResult {
  readonly states: number;
  readonly limits: readonly LimitReached[];
}

/** `starts`: what puts the machine at each place to begin from. */
export function* followWalk(
  { limits }: StatesContext,
  walk: Walk,
  starts: readonly (() => void)[],
  onEdge: OnEdge,
): Generator<void, WalkResult> {
  const { machine, inputs } = walk;
  const seen = new Set<string>();
  const waiting: Place[] = [];
  /** The place at which the machine stands; null where it stands at one that was known before. */
  let standing: Place | null = null;
  const enter = (way: Way | null, level: 0 | 1): void => {
    const key = `${level}${stateKey(walk)}`;
    standing = null;
    if (seen.has(key)) return;
    seen.add(key);
    standing = { state: takeState(walk), way, level };
    waiting.push(standing);
  };
  for (const start of starts) {
    start();
    enter(null, walk.restLevel);
  }
  const workLimit = machine.work + workPerState * limits.states;
  let edges = 0;
  for (const place of waiting) {
    for (let setting = 0; setting < inputs.settings; setting++) {
      const way: Way = { before: place.way, setting, period: periodAfter(walk, place) };
      if (standing !== place) putState(walk, place);
      choose(machine, inputs, setting);
      advance(machine);
      onEdge(takeEdge(walk), way);
      if (walk.edges === 'one') tick(walk);
      enter(way, walk.edges === 'one' ? place.level : ((1 - place.level) as 0 | 1));
      edges += 1;
      if (edges % edgesPerTurn === 0) yield;
    }
    if (seen.size > limits.states) return { states: seen.size, limits: ['states'] };
    if (machine.work > workLimit) return { states: seen.size, limits: ['work'] };
  }
  return { states: seen.size, limits: [] };
}

export interface Walk {
  readonly machine: SettledMachine;
  readonly inputs: FreeInputs;
  readonly clock: Bit;
  /** Level of the clock before the edge that matters. */
  readonly restLevel: 0 | 1;
  /** Whether one edge of each period matters, or both. */
  readonly edges: 'one' | 'both';
  /** Bits that make the state, and the registers and latches that hold them. */
  readonly stateBits: readonly Bit[];
  readonly nodes: readonly NodeId[];
  readonly recorded: readonly { readonly variable: number; readonly bit: Bit }[];
  readonly transition: { readonly before: Uint8Array; readonly after: Uint8Array; readonly restless: Set<number> };
  /** How often each recorded register bit changed since the edge. */
  readonly flips: Map<number, number>;
}

export interface Place {
  readonly state: readonly Bits[];
  readonly way: Way | null;
  readonly level: 0 | 1;
}

/** A machine at the state after reset and start, the clock before the edge that matters. */
export function startWalk(context: StatesContext, group: Group): Walk {
  const { netlist, network, logic } = context.workshop;
  const bitOf = (variable: number): Bit => logic.variables[variable].bit;
  const clock = sourceBit(netlist.nodes, network.roots[group.root].bit);
  const watched = [...group.state, ...group.recorded, ...group.held].map((variable) => bitOf(variable).node);
  const machine = machineFor(context, [clock.node, ...watched]);
  const { edges, restLevel } = edgesOf(context, group);
  settleStart(context, machine, clock, restLevel);
  const inputs = freeInputs(context, group.held, machine);
  const count = logic.variables.length;
  const stateBits = group.state.map(bitOf);
  const walk: Walk = {
    machine,
    inputs,
    clock,
    restLevel,
    edges,
    stateBits,
    nodes: [...new Set(stateBits.map(({ node }) => node))],
    recorded: group.recorded.map((variable) => ({ variable, bit: bitOf(variable) })),
    transition: { before: new Uint8Array(count), after: new Uint8Array(count), restless: new Set() },
    flips: new Map(),
  };
  countFlips(walk);
  return walk;
}

function machineFor({ workshop, prediction, limits }: StatesContext, watched: readonly NodeId[]): SettledMachine {
  const { netlist, network, delaySet, arrivals } = workshop;
  const logic = createLogicDelays(netlist, delaySet);
  const order = createTransferOrder({ netlist, network, delaySet, arrivals, logic });
  const machine = createMachine(planSettled(netlist, watched), { order, stepLimit: limits.instantSteps });
  const inputs = inputNodesOf(netlist);
  beginUnderDrive(machine, prediction.drive, inputs, startsOf(netlist, prediction.drive, inputs, '0'));
  return machine;
}

/** Which edges of the root anything in the state follows; latches follow both. */
function edgesOf({ workshop }: StatesContext, group: Group): Pick<Walk, 'edges' | 'restLevel'> {
  const { logic, netlist, network } = workshop;
  const followed = new Set(
    group.state.map((variable) => {
      const { bit, kind } = logic.variables[variable];
      return kind === 'register' ? (network.registers[netlist.nodes.aux[bit.node]].root?.edge ?? 'either') : 'either';
    }),
  );
  if (followed.size === 1 && followed.has('rising')) return { edges: 'one', restLevel: 0 };
  if (followed.size === 1 && followed.has('falling')) return { edges: 'one', restLevel: 1 };
  return { edges: 'both', restLevel: 0 };
}

/** Clocks through the resets that are heard, releases them, and leaves the clock before its edge. */
function settleStart({ prediction }: StatesContext, machine: SettledMachine, clock: Bit, level: 0 | 1): void {
  const heard = prediction.drive.resets.filter(({ bit }) => isHeard(machine.plan, bit));
  const periods = Math.max(0, ...heard.map((reset) => reset.periods));
  for (let edge = 0; edge < 2 * periods; edge++) tick({ machine, clock });
  for (const reset of heard) setReset(machine, reset, 'released');
  advance(machine);
  if (readBit(machine, clock) !== level) tick({ machine, clock });
}

function periodAfter({ edges, restLevel }: Walk, { way, level }: Place): number {
  if (way === null) return 0;
  return edges === 'one' || level === restLevel ? way.period + 1 : way.period;
}

export function takeState({ machine, nodes }: Walk): readonly Bits[] {
  return nodes.map((node) => readNode(machine, node));
}

export function putState({ machine, nodes, clock }: Walk, { state, level }: Place): void {
  nodes.forEach((node, index) => {
    setState(machine, node, state[index]);
  });
  setSourceBit(machine, clock, level);
  rest(machine);
}

function stateKey({ machine, stateBits }: Walk): string {
  let key = '';
  for (const bit of stateBits) key += readBit(machine, bit);
  return key;
}

function tick({ machine, clock }: Pick<Walk, 'machine' | 'clock'>): void {
  setSourceBit(machine, clock, readBit(machine, clock) === 1 ? 0 : 1);
  advance(machine);
}

/** The next root edge, with the levels on both sides of it. */
function takeEdge(walk: Walk): Transition {
  const { transition, flips } = walk;
  readLevels(walk, transition.before);
  flips.clear();
  transition.restless.clear();
  tick(walk);
  readLevels(walk, transition.after);
  for (const [variable, count] of flips) if (count > 1) transition.restless.add(variable);
  return transition;
}

function readLevels({ machine, recorded }: Walk, into: Uint8Array): void {
  for (const { variable, bit } of recorded) into[variable] = readBit(machine, bit);
}

function countFlips({ machine, recorded, flips }: Walk): void {
  const byNode = new Map<NodeId, { readonly variable: number; readonly bit: number }[]>();
  for (const { variable, bit } of recorded) {
    byNode.set(bit.node, [...(byNode.get(bit.node) ?? []), { variable, bit: bit.bit }]);
  }
  machine.listener = ({ register, from, to }) => {
    for (const { variable, bit } of byNode.get(machine.plan.registers[register].register.node) ?? []) {
      if (isDifferent(from, to, bit)) flips.set(variable, (flips.get(variable) ?? 0) + 1);
    }
  };
}

function isDifferent(from: Bits, to: Bits, bit: number): boolean {
  const limb = bit >>> 5;
  return ((((from.a[limb] ^ to.a[limb]) | (from.b[limb] ^ to.b[limb])) >>> (bit & 31)) & 1) === 1;
}
