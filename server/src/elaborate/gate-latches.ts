// Cross-coupled gates are storage, not a loop (definition 40): of two nets that hold each other through a NOR or NAND
// each, the first becomes a latch that the other inputs set and clear; the second stays the gate that reads it. Where
// both are held off by one input (gates in front of the pair), that input opens the latch. Every other loop of gates
// stays one.

import { allX, digitBits } from '../netlist/four-state';
import type { AsynchronousControl, Latch, LatchId, Netlist, NodeColumns, NodeId, ProcessId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { gateOfPair } from './gate-latch-opening';
import { createGrowingNodes, type GrowingNodes } from '../netlist/growing-nodes';

/** `knots`: sets of nodes of the netlist that feed each other. */
export function withGateLatches(netlist: Netlist, knots: readonly (readonly NodeId[])[]): Netlist {
  const pairs = knots.flatMap((knot) => pairIn(netlist.nodes, knot) ?? []);
  if (pairs.length === 0) return netlist;
  const grown = createGrowingNodes(netlist.nodes);
  const constants = [...netlist.constants, digitBits('0'), digitBits('1')];
  const constantAt = (value: 0 | 1, place: number) =>
    grown.add({ op: Op.constant, width: 1, operands: [], aux: constants.length - 2 + value, place });
  const latches = pairs.map((pair, index) => {
    const id = (netlist.latches.length + index) as LatchId;
    return latchOf(netlist, grown, pair, id, constantAt);
  });
  return { ...netlist, constants, nodes: grown.columns(), latches: [...netlist.latches, ...latches] };
}

/** A net of one bit, and its driver without explicit delays: NOR or NAND of the other net and of `others`. */
interface Half {
  readonly net: NodeId;
  /** The node that is the gate's output, behind a delay or not. */
  readonly output: NodeId;
  readonly kind: 'nor' | 'nand';
  readonly others: readonly NodeId[];
}

type Pair = readonly [Half, Half];

/** Two nets, each driven by a gate that reads the other, and nothing else in the knot. */
function pairIn(nodes: NodeColumns, knot: readonly NodeId[]): Pair[] | null {
  const nets = knot.filter((node) => nodes.op[node] === Op.net);
  if (nets.length !== 2 || knot.some((node) => nodes.width[node] !== 1)) return null;
  const [first, second] = [halfOf(nodes, nets[0], nets[1], knot), halfOf(nodes, nets[1], nets[0], knot)];
  return first === null || second === null || first.kind !== second.kind ? null : [[first, second]];
}

function operandsOf(nodes: NodeColumns, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}

function halfOf(nodes: NodeColumns, net: NodeId, other: NodeId, knot: readonly NodeId[]): Half | null {
  let [output] = operandsOf(nodes, net);
  while (nodes.op[output] === Op.delay) [output] = operandsOf(nodes, output);
  const gate = gateOf(nodes, output);
  if (gate === null) return null;
  const inputs = flattened(nodes, gate.inputs, gate.inner);
  const others = inputs.filter((input) => input !== other);
  const isWhole =
    others.length === inputs.length - 1 && others.length > 0 && others.every((input) => !knot.includes(input));
  return isWhole ? { net, output, kind: gate.kind, others } : null;
}

/** A NOR or NAND, written as one gate or as an inverted OR or AND. */
function gateOf(nodes: NodeColumns, node: NodeId) {
  const [inner] = operandsOf(nodes, node);
  const op = nodes.op[node];
  if (op === Op.nor || (op === Op.not && nodes.op[inner] === Op.or)) {
    return { kind: 'nor', inner: Op.or, inputs: operandsOf(nodes, op === Op.nor ? node : inner) } as const;
  }
  if (op === Op.nand || (op === Op.not && nodes.op[inner] === Op.and)) {
    return { kind: 'nand', inner: Op.and, inputs: operandsOf(nodes, op === Op.nand ? node : inner) } as const;
  }
  return null;
}

/** `a | b | c` is written as one OR inside another. */
function flattened(nodes: NodeColumns, inputs: readonly NodeId[], inner: number): NodeId[] {
  return inputs.flatMap((input) =>
    nodes.op[input] === inner ? flattened(nodes, operandsOf(nodes, input), inner) : [input],
  );
}

/**
 * An active input of the latch's own gate forces it; one of the other gate forces the other, and so this one back. Both
 * are controls, or data where one input opens them; a gate made of them would look like a clock that one of them cuts.
 */
function latchOf(
  netlist: Netlist,
  grown: GrowingNodes,
  [own, other]: Pair,
  id: LatchId,
  constantAt: (value: 0 | 1, place: number) => NodeId,
): Latch {
  const { nodes } = netlist;
  const placeIndex = nodes.place[own.net];
  const piece = netlist.pieces[nodes.aux[own.net]];
  const signal = netlist.signals[piece.signal];
  const forced = own.kind === 'nor' ? 0 : 1;
  const active = own.kind === 'nor' ? 'high' : 'low';
  const opening = gateOfPair(nodes, own.others, other.others, active);
  const controls = ({ others }: Half, value: 0 | 1) =>
    others.map((node) => ({ node, value: constantAt(value, placeIndex) }));
  const all = [...controls(own, forced), ...controls(other, forced === 0 ? 1 : 0)];
  const isOpened = (control: NodeId) => opening?.controls.has(control) ?? false;
  const asynchronous = all
    .filter(({ node }) => !isOpened(node))
    .map(
      ({ node, value }): AsynchronousControl => ({
        control: bitOf(nodes, node),
        active,
        value,
        place: netlist.places[nodes.place[node]],
      }),
    );
  const node = grown.add({ op: Op.latch, width: 1, operands: [], aux: id, place: placeIndex });
  const [driver] = operandsOf(nodes, own.net);
  if (driver === own.output) grown.replace(own.net, { op: Op.net, operands: [node], aux: nodes.aux[own.net] });
  else redirect(nodes, grown, driver, own.output, node);
  const data = all
    .filter((control) => isOpened(control.node))
    .reduceRight((rest, control) => {
      const arms = active === 'high' ? [control.value, rest] : [rest, control.value];
      return grown.add({ op: Op.mux, width: 1, operands: [control.node, ...arms], aux: 0, place: placeIndex });
    }, node);
  return {
    id,
    signal: signal.id,
    low: piece.low,
    width: 1,
    node,
    gate: opening?.gate ?? { node: constantAt(0, placeIndex), bit: 0 },
    active: opening?.active ?? 'high',
    asynchronous,
    data,
    initial: allX(1),
    process: processOf(netlist, signal.id),
    instance: signal.instance,
    place: signal.place,
    holdPlace: netlist.places[placeIndex],
    flavor: 'gates',
    othersComplete: false,
  };
}

/** Through the delays between a net and its gate: the innermost one gets the latch instead. */
function redirect(nodes: NodeColumns, grown: GrowingNodes, driver: NodeId, output: NodeId, latch: NodeId): void {
  let delay = driver;
  for (let [inner] = operandsOf(nodes, delay); inner !== output; [inner] = operandsOf(nodes, delay)) delay = inner;
  grown.replace(delay, { op: Op.delay, operands: [latch], aux: nodes.aux[delay] });
}

function bitOf(nodes: NodeColumns, node: NodeId) {
  if (nodes.op[node] !== Op.slice) return { node, bit: 0 };
  return { node: operandsOf(nodes, node)[0], bit: nodes.aux[node] };
}

function processOf({ processes }: Netlist, signal: Latch['signal']): ProcessId {
  const found = processes.find(({ assignments }) => assignments.some((assignment) => assignment.signal === signal));
  return found?.id ?? (0 as ProcessId);
}
