// When clock edges and register outputs arrive after the root edge they follow, per direction (definition 20). Along a
// chain the path is one and the triples are exact; where several paths meet, the triple spans them all. An explicit
// delay of the text stands for the expression below it; a gate passes its clock operands, controls wait outside.

import { createMemoWalk, type MemoWalk } from '../clocks/memo-walk';
import type { ClockNetwork } from '../clocks/network';
import type { DelaySet, DirectionalDelay } from '../delays/delay-set';
import { setOfLatch, setOfNode, setOfRegister } from '../delays/own-delays';
import { clockToQOf, logicDelayOf } from '../delays/stage-delays';
import { addTriples, spanningTriple, zeroDelay, zeroTriple } from '../delays/triple';
import { bitKey } from '../netlist/bit-key';
import {
  type Bit,
  type DelayTriple,
  type EdgeKind,
  type Netlist,
  type NodeColumns,
  operand,
  type RegisterId,
} from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';
import { coveredByDelay } from './covered-nodes';

/** ps after the root edge; null for a direction that follows from none. */
export interface Arrival {
  readonly rise: DelayTriple | null;
  readonly fall: DelayTriple | null;
}

export interface Arrivals {
  /** Of the active edge at a register's clock pin; null without exactly one root. */
  clockOf(register: RegisterId): DelayTriple | null;
  /** Of a register's output. */
  outputOf(register: RegisterId): Arrival;
}

/** Each register is worked out once. */
export function createArrivals(netlist: Netlist, network: ClockNetwork, delaySet: DelaySet): Arrivals {
  const circuit = { netlist, network, delaySet };
  const walk = createClockWalk(circuit);
  const clockOf = (register: RegisterId): DelayTriple | null => {
    const { clock, edge } = netlist.registers[register];
    if (network.registers[register].root === null) return null;
    return directionOf(walk(sourceBit(netlist.nodes, clock)), edge);
  };
  const known: { readonly clock: DelayTriple | null; readonly output: Arrival }[] = [];
  const factsOf = (register: RegisterId) => {
    known[register] ??= {
      clock: clockOf(register),
      output: launched(clockOf(register), clockToOutput(circuit, register)),
    };
    return known[register];
  };
  return {
    clockOf: (register) => factsOf(register).clock,
    outputOf: (register) => factsOf(register).output,
  };
}

export function directionOf(arrival: Arrival, edge: EdgeKind): DelayTriple | null {
  return edge === 'rising' ? arrival.rise : arrival.fall;
}

/** Both directions of an output that is launched at one instant. */
export function launched(clock: DelayTriple | null, delay: DirectionalDelay): Arrival {
  if (clock === null) return never;
  return { rise: addTriples(clock, delay.rise), fall: addTriples(clock, delay.fall) };
}

const never: Arrival = { rise: null, fall: null };

interface Circuit {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly delaySet: DelaySet;
}

/** Clock-to-output of a register alone, ps: what the text states, else the set by its stage. */
function clockToOutput({ netlist, network, delaySet }: Circuit, id: RegisterId): DirectionalDelay {
  const { delay } = netlist.registers[id];
  if (delay >= 0) return netlist.explicitDelays[delay];
  return clockToQOf(setOfRegister(delaySet, id), network.registers[id].stage);
}

/**
 * Answers for the bits of the network's clocks, wiring looked through. Each is made of the clocks it comes from; what
 * else its expression hears is a control and carries no edge.
 */
function createClockWalk(circuit: Circuit): MemoWalk<Arrival> {
  const { nodes } = circuit.netlist;
  const { clocks } = circuit.network;
  const byKey = new Map(clocks.map((clock) => [bitKey(sourceBit(nodes, clock.bit)), clock]));
  const covered = coveredByDelay(circuit.netlist);
  return createMemoWalk<Arrival>({
    operandsOf(bit) {
      const from = byKey.get(bitKey(bit))?.from ?? [];
      return from.map((id) => sourceBit(nodes, clocks[id].bit));
    },
    valueOf(bit, origins, values) {
      const clock = byKey.get(bitKey(bit));
      if (clock === undefined) return never;
      if (clock.from.length === 0) return clock.root === null ? never : { rise: zeroTriple, fall: zeroTriple };
      const known = new Map(origins.map((origin, index) => [bitKey(origin), values[index] ?? never]));
      // A cell that is only stated to pass a clock: which way it turns it, and how long it takes, is not known here.
      if (nodes.op[bit.node] === Op.blackBox) return sensed([...known.values()].reduce(spanned, never), 'both');
      return walkExpression({ ...circuit, covered, known }, bit);
    },
  });
}

interface Expression extends Circuit {
  /** Nodes below an explicit delay: they take no time of their own. */
  readonly covered: Uint8Array;
  /** Arrivals of the bits where the walk ends. */
  readonly known: ReadonlyMap<number, Arrival>;
}

/** From the bits that clocks come from forward to this one, through what stands between. */
function walkExpression(expression: Expression, start: Bit): Arrival {
  const { nodes, registers, latches } = expression.netlist;
  const heard = (bit: Bit): Bit[] => {
    if (nodes.op[bit.node] === Op.register) return [registers[nodes.aux[bit.node]].clock];
    if (nodes.op[bit.node] === Op.latch) return [latches[nodes.aux[bit.node]].gate];
    return operandsOfBit(nodes, bit);
  };
  const isStart = (bit: Bit) => sameBit(bit, start);
  const walk = createMemoWalk<Arrival>({
    operandsOf: (bit) => {
      if (!isStart(bit) && (isState(nodes, bit) || expression.known.has(bitKey(bit)))) return [];
      return heard(bit).map((operand) => sourceBit(nodes, operand));
    },
    valueOf: (bit, operands, values) => {
      const known = isStart(bit) ? undefined : expression.known.get(bitKey(bit));
      if (known !== undefined) return known;
      return operands.length === 0
        ? never
        : throughNode(
            expression,
            bit,
            operands,
            values.map((value) => value ?? never),
          );
    },
  });
  return walk(start);
}

function isState(nodes: NodeColumns, bit: Bit): boolean {
  return nodes.op[bit.node] <= Op.hole;
}

function throughNode(expression: Expression, bit: Bit, operands: readonly Bit[], values: readonly Arrival[]): Arrival {
  const { netlist, delaySet, covered } = expression;
  const op = netlist.nodes.op[bit.node];
  const aux = netlist.nodes.aux[bit.node];
  if (op === Op.register) {
    const { edge, id } = netlist.registers[aux];
    return launched(directionOf(values[0], edge), clockToOutput(expression, id));
  }
  if (op === Op.latch) {
    const { active, id } = netlist.latches[aux];
    const opening = active === 'high' ? values[0].rise : values[0].fall;
    return launched(opening, setOfLatch(delaySet, id).latch ?? zeroDelay);
  }
  if (op === Op.delay) return delayed(values[0], netlist.explicitDelays[aux]);
  const delay = covered[bit.node] === 1 ? zeroDelay : logicDelayOf(setOfNode(delaySet, bit.node), op);
  const select = op === Op.mux ? sourceBit(netlist.nodes, { node: operand(netlist.nodes, bit.node, 0), bit: 0 }) : null;
  const senses = operands.map((heard) => (select !== null && sameBit(heard, select) ? 'both' : senseOf(op)));
  return delayed(values.map((value, index) => sensed(value, senses[index])).reduce(spanned, never), delay);
}

type Sense = 'straight' | 'inverted' | 'both';

/** How an output follows one operand: the same way, the other way, or either, as the other operands have it. */
function senseOf(op: number): Sense {
  switch (op) {
    case Op.buf:
    case Op.resolve:
    case Op.tristate:
    case Op.and:
    case Op.or:
    case Op.reduceAnd:
    case Op.reduceOr:
    case Op.mux:
      return 'straight';
    case Op.not:
    case Op.nand:
    case Op.nor:
      return 'inverted';
    default:
      return 'both';
  }
}

function sensed({ rise, fall }: Arrival, sense: Sense): Arrival {
  if (sense === 'straight') return { rise, fall };
  return sense === 'inverted' ? { rise: fall, fall: rise } : { rise: span(rise, fall), fall: span(rise, fall) };
}

function delayed({ rise, fall }: Arrival, delay: DirectionalDelay): Arrival {
  return { rise: rise && addTriples(rise, delay.rise), fall: fall && addTriples(fall, delay.fall) };
}

function spanned(left: Arrival, right: Arrival): Arrival {
  return { rise: span(left.rise, right.rise), fall: span(left.fall, right.fall) };
}

export function span(left: DelayTriple | null, right: DelayTriple | null): DelayTriple | null {
  return left === null || right === null ? (left ?? right) : spanningTriple(left, right);
}

function sameBit(left: Bit, right: Bit): boolean {
  return left.node === right.node && left.bit === right.bit;
}
