// Follows states with the settled stepper, one edge at a time: for chains, latches, gates in clock paths, controls that
// act by themselves, registers of both edges. Where nothing is to be chosen it simply runs on.

import type { Bits } from '../netlist/four-state';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { advance, begin, readBit, readNode, rest, setSource, setSourceBit, setState } from '../predict/settled';
import { createMachine, type SettledMachine } from '../predict/settled-machine';
import { planSettled } from '../predict/settled-plan';
import type { Transition } from './glitch-forest';
import { choose } from './glitch-inputs';
import { toggle } from './glitch-start';
import type { FollowResult, Journey, OnEdge, StatesContext, Way } from './glitch-states';

/** Evaluations of nodes per state that the limit allows. */
const workPerState = 8;
const edgesPerTurn = 64;

export function* followWalk(context: StatesContext, journey: Journey, onEdge: OnEdge): Generator<void, FollowResult> {
  const { limits } = context;
  const walk = startWalk(context, journey);
  const { machine } = walk;
  const { inputs, edges, restLevel } = journey;
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
  for (const state of journey.states) {
    putStart(walk, journey, state);
    enter(null, restLevel);
  }
  const workLimit = machine.work + workPerState * limits.states;
  let taken = 0;
  for (const place of waiting) {
    for (let setting = 0; setting < inputs.settings; setting++) {
      const way: Way = { before: place.way, setting, period: periodAfter(journey, place) };
      if (standing !== place) putState(walk, place);
      choose(machine, inputs, setting);
      advance(machine);
      onEdge(takeEdge(walk), way);
      if (edges === 'one') toggle(machine, walk.clock);
      enter(way, edges === 'one' ? place.level : ((1 - place.level) as 0 | 1));
      taken += 1;
      if (taken % edgesPerTurn === 0) yield;
    }
    if (seen.size > limits.states) return { states: seen.size, limits: ['states'], sawAll: false };
    if (machine.work > workLimit) return { states: seen.size, limits: ['work'], sawAll: false };
  }
  return { states: seen.size, limits: [], sawAll: false };
}

interface Walk {
  readonly machine: SettledMachine;
  readonly clock: Bit;
  /** Bits that make the state, and the registers and latches that hold them. */
  readonly stateBits: readonly Bit[];
  readonly nodes: readonly NodeId[];
  readonly recorded: readonly { readonly variable: number; readonly bit: Bit }[];
  readonly transition: { readonly before: Uint8Array; readonly after: Uint8Array; readonly restless: Set<number> };
  /** How often each recorded register bit changed since the edge. */
  readonly flips: Map<number, number>;
}

interface Place {
  readonly state: readonly Bits[];
  readonly way: Way | null;
  readonly level: 0 | 1;
}

function startWalk(context: StatesContext, { group, extent }: Journey): Walk {
  const { netlist, network, logic } = context.workshop;
  const bitOf = (variable: number): Bit => logic.variables[variable].bit;
  const clock = sourceBit(netlist.nodes, network.roots[group.root].bit);
  const watched = [...extent.state, ...extent.held, ...group.recorded].map((variable) => bitOf(variable).node);
  const count = logic.variables.length;
  const stateBits = extent.state.map(bitOf);
  const walk: Walk = {
    machine: machineAtStart(context, group.root, [clock.node, ...watched]),
    clock,
    stateBits,
    nodes: [...new Set(stateBits.map(({ node }) => node))],
    recorded: group.recorded.map((variable) => ({ variable, bit: bitOf(variable) })),
    transition: { before: new Uint8Array(count), after: new Uint8Array(count), restless: new Set() },
    flips: new Map(),
  };
  countFlips(walk);
  return walk;
}

/** A machine of these nodes alone that stands where the whole netlist stands at the start. */
function machineAtStart({ workshop, starts, limits }: StatesContext, root: number, watched: readonly NodeId[]) {
  const netlist = withOpenMemories(workshop.netlist);
  const whole = starts.at(root);
  const plan = planSettled(netlist, watched);
  const machine = createMachine(plan, { order: starts.order, stepLimit: limits.instantSteps });
  begin(machine, {
    register: (id) => readNode(whole, netlist.registers[id].node),
    latch: (id) => readNode(whole, netlist.latches[id].node),
  });
  for (const node of plan.nodes) {
    const op = workshop.netlist.nodes.op[node];
    if (op === Op.input || op === Op.blackBox || op === Op.memoryRead)
      setSource(machine, node as NodeId, readNode(whole, node as NodeId));
  }
  rest(machine);
  return machine;
}

/** What memories kept as one content hold is not followed: what is read from them is set from outside. */
function withOpenMemories(netlist: Netlist): Netlist {
  if (netlist.memories.every(({ contents }) => contents === null)) return netlist;
  const [op, arity] = [netlist.nodes.op.slice(), netlist.nodes.arity.slice()];
  for (let node = 0; node < op.length; node++) {
    if (op[node] !== Op.memoryRead) continue;
    op[node] = Op.hole;
    arity[node] = 0;
  }
  return { ...netlist, nodes: { ...netlist.nodes, op, arity } };
}

function putStart({ machine, stateBits, clock }: Walk, { restLevel }: Journey, state: Uint8Array): void {
  stateBits.forEach((bit, index) => {
    setSourceBit(machine, bit, state[index] as 0 | 1 | 2 | 3);
  });
  setSourceBit(machine, clock, restLevel);
  rest(machine);
}

function periodAfter({ edges, restLevel }: Journey, { way, level }: Place): number {
  if (way === null) return 0;
  return edges === 'one' || level === restLevel ? way.period + 1 : way.period;
}

function takeState({ machine, nodes }: Walk): readonly Bits[] {
  return nodes.map((node) => readNode(machine, node));
}

function putState({ machine, nodes, clock }: Walk, { state, level }: Place): void {
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

/** The next root edge, with the levels on both sides of it. */
function takeEdge(walk: Walk): Transition {
  const { machine, clock, transition, flips } = walk;
  readLevels(walk, transition.before);
  flips.clear();
  transition.restless.clear();
  toggle(machine, clock);
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
