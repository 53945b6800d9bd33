// What each variable of the logic is to one root clock: the clock itself, a register bit that follows it, a cell that
// takes time, or something that holds still around its edges. With delays per direction, and as literals what triggers
// a change. Registers and latches of other roots hold still here: their changes have no fixed relation to this clock's.

import type { ClockNetwork } from '../clocks/network';
import type { DelaySet, DirectionalDelay } from '../delays/delay-set';
import { setOfLatch, setOfNode, setOfRegister } from '../delays/own-delays';
import { clockToQOf, logicDelayOf } from '../delays/stage-delays';
import { zeroDelay } from '../delays/triple';
import { bitKey } from '../netlist/bit-key';
import type { AsynchronousControl, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { type Arrivals, createArrivals } from '../predict/arrival';
import { coveredByDelay } from '../predict/covered-nodes';
import { type Cone, createCone } from './glitch-cone';
import { coneOfLiterals, type Literal, not, variablesOfCone } from './glitch-gates';
import { createLaneRoom, type LaneRoom } from './glitch-lanes';
import { createLogic, functionOf, heardBy, literalOf, type Logic, type Variable } from './glitch-logic';

export type Part =
  | { readonly kind: 'held' }
  | { readonly kind: 'root' }
  | { readonly kind: 'cell'; readonly follows: Literal; readonly delay: DirectionalDelay }
  | { readonly kind: 'opaque'; readonly hears: readonly Literal[] }
  | StoredPart;

/** A register or latch bit. */
export interface StoredPart {
  readonly kind: 'register' | 'latch';
  /** Register: its active edge is this literal's rise. Latch: open while this literal is 1. */
  readonly trigger: Literal;
  readonly data: Literal;
  /** In priority order; active while 1. */
  readonly controls: readonly { readonly active: Literal; readonly value: Literal }[];
  readonly delay: DirectionalDelay;
  /** From a control. */
  readonly clear: DirectionalDelay;
}

export interface PartsInput {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly delaySet: DelaySet;
}

/** Logic and delays of a netlist, shared by all its roots. */
export interface Workshop extends PartsInput {
  readonly logic: Logic;
  readonly arrivals: Arrivals;
  readonly delayOf: (node: NodeId) => DirectionalDelay;
  readonly supports: Map<Literal, readonly number[]>;
  readonly cones: Map<Literal, readonly number[]>;
  readonly columns: Map<Literal, Cone>;
  readonly room: LaneRoom;
}

export function createWorkshop(input: PartsInput): Workshop {
  const { netlist, network, delaySet } = input;
  const covered = coveredByDelay(netlist);
  const delayOf = (node: NodeId): DirectionalDelay => {
    const { op, aux } = netlist.nodes;
    if (op[node] === Op.delay) return netlist.explicitDelays[aux[node]];
    return covered[node] === 1 ? zeroDelay : logicDelayOf(setOfNode(delaySet, node), op[node]);
  };
  const takesTime = (node: NodeId) => netlist.nodes.op[node] === Op.delay || isSlow(delayOf(node));
  return {
    ...input,
    logic: createLogic(netlist, takesTime),
    arrivals: createArrivals(netlist, network, delaySet),
    delayOf,
    supports: new Map(),
    cones: new Map(),
    columns: new Map(),
    room: createLaneRoom(),
  };
}

/** The parts seen from one root, by variable; made when asked for. */
export function createParts(workshop: Workshop, root: number): (variable: number) => Part {
  const { netlist, network, logic } = workshop;
  const known = new Map<number, Part>();
  const rootKey = bitKey(sourceBit(netlist.nodes, network.roots[root].bit));
  return (variable) => {
    let part = known.get(variable);
    if (part === undefined) {
      const isRoot = bitKey(logic.variables[variable].bit) === rootKey;
      part = isRoot ? { kind: 'root' } : partOf(workshop, root, variable);
      known.set(variable, part);
    }
    return part;
  };
}

/** The gates of a literal's function, operands first. */
export function coneOf({ logic, cones }: Workshop, literal: Literal): readonly number[] {
  const known = cones.get(literal);
  if (known !== undefined) return known;
  const found = coneOfLiterals(logic.gates, [literal]);
  cones.set(literal, found);
  return found;
}

/** The same to go through again and again. */
export function columnsOf(workshop: Workshop, literal: Literal): Cone {
  const known = workshop.columns.get(literal);
  if (known !== undefined) return known;
  const found = createCone(workshop.logic.gates, literal, coneOf(workshop, literal));
  workshop.columns.set(literal, found);
  return found;
}

/** The variables that a literal hangs on without any time between, ascending; through opaque ones to what they hear. */
export function supportOf(workshop: Workshop, literal: Literal): readonly number[] {
  const known = workshop.supports.get(literal);
  if (known !== undefined) return known;
  const { logic } = workshop;
  const found = new Set<number>();
  const waiting: Literal[] = [literal];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const variable of variablesOfCone(logic.gates, coneOf(workshop, next))) {
      if (found.has(variable)) continue;
      found.add(variable);
      if (isUnstructured(logic.variables[variable])) waiting.push(...heardBy(logic, variable));
    }
  }
  const support = [...found].sort((left, right) => left - right);
  workshop.supports.set(literal, support);
  return support;
}

function isUnstructured({ kind }: Variable): boolean {
  return kind === 'opaque' || kind === 'memory';
}

function partOf(workshop: Workshop, root: number, variable: number): Part {
  const { netlist, network, logic } = workshop;
  const { bit, kind } = logic.variables[variable];
  const aux = netlist.nodes.aux[bit.node];
  switch (kind) {
    case 'cell':
      return { kind, follows: functionOf(logic, variable), delay: workshop.delayOf(bit.node) };
    case 'opaque':
    case 'memory':
      return { kind: 'opaque', hears: heardBy(logic, variable) };
    case 'register':
      return follows(network.registers[aux].roots, root) ? registerPart(workshop, aux, bit.bit) : { kind: 'held' };
    case 'latch':
      return network.latches[aux].root === root ? latchPart(workshop, aux, bit.bit) : { kind: 'held' };
    default:
      return { kind: 'held' };
  }
}

function follows(roots: readonly number[], root: number): boolean {
  return roots.length === 1 && roots[0] === root;
}

function registerPart(workshop: Workshop, id: number, bit: number): StoredPart {
  const { netlist, network, logic, delaySet } = workshop;
  const register = netlist.registers[id];
  const set = setOfRegister(delaySet, register.id);
  const written = register.delay >= 0 ? netlist.explicitDelays[register.delay] : null;
  const clock = literalOf(logic, register.clock);
  return {
    kind: 'register',
    trigger: register.edge === 'rising' ? clock : not(clock),
    data: literalOf(logic, { node: register.data, bit }),
    controls: register.asynchronous.map((control) => controlOf(logic, control, bit)),
    delay: written ?? clockToQOf(set, network.registers[id].stage),
    clear: written ?? set.clear ?? zeroDelay,
  };
}

function latchPart({ netlist, logic, delaySet }: Workshop, id: number, bit: number): StoredPart {
  const latch = netlist.latches[id];
  const set = setOfLatch(delaySet, latch.id);
  const gate = literalOf(logic, latch.gate);
  return {
    kind: 'latch',
    trigger: latch.active === 'high' ? gate : not(gate),
    data: literalOf(logic, { node: latch.data, bit }),
    controls: latch.asynchronous.map((control) => controlOf(logic, control, bit)),
    delay: set.latch ?? zeroDelay,
    clear: set.clear ?? zeroDelay,
  };
}

function controlOf(logic: Logic, { control, active, value }: AsynchronousControl, bit: number) {
  const level = literalOf(logic, control);
  return { active: active === 'high' ? level : not(level), value: literalOf(logic, { node: value, bit }) };
}

function isSlow({ rise, fall }: DirectionalDelay): boolean {
  return rise.max > 0 || fall.max > 0;
}
