// Whether two netlists compute the same: every register's next value, clock and controls, every latch's data and gate, and
// every output of the top, for the same levels of everything they come from. All levels where those are few, else as many
// random ones as are tried; which of the two is said. Names pair what belongs together.

import { type Bits, bitsOf, toBinary } from '../netlist/four-state';
import { evaluate } from '../netlist/evaluate';
import { signalSliceName } from '../netlist/bit-names';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { isMemoryOperator, isSource, Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import { createRandom } from './random';

export type Sameness =
  | { readonly kind: 'proven' }
  | { readonly kind: 'tried'; readonly times: number }
  | { readonly kind: 'different'; readonly name: string }
  /** Something in them is not compared: memories, black boxes, loops. */
  | { readonly kind: 'unknown' };

/** Source bits up to which all levels are tried. */
const fewBits = 12;
const randomTimes = 512;

export function* compareCircuits(left: Netlist, right: Netlist): Generator<void, Sameness> {
  const [first, second] = [openCircuit(left), openCircuit(right)];
  if (first === null || second === null) return { kind: 'unknown' };
  const widths = new Map([...first.sources, ...second.sources].map(({ name, width }) => [name, width] as const));
  const bits = [...widths.values()].reduce((sum, width) => sum + width, 0);
  const times = bits <= fewBits ? 2 ** bits : randomTimes;
  const random = createRandom();
  for (let turn = 0; turn < times; turn++) {
    const levels = bits <= fewBits ? turn.toString(2).padStart(bits, '0') : null;
    const values = valuesOf(widths, levels, random);
    const [one, other] = [resultsOf(first, values), resultsOf(second, values)];
    const name = [...new Set([...one.keys(), ...other.keys()])].find((key) => one.get(key) !== other.get(key));
    if (name !== undefined) return { kind: 'different', name };
    if (turn % 16 === 0) yield;
  }
  return bits <= fewBits ? { kind: 'proven' } : { kind: 'tried', times };
}

interface Source {
  readonly node: NodeId;
  readonly name: string;
  readonly width: number;
}

interface Circuit {
  readonly netlist: Netlist;
  readonly order: readonly NodeId[];
  readonly sources: readonly Source[];
}

function openCircuit(netlist: Netlist): Circuit | null {
  const { nodes } = netlist;
  const { knots, order } = orderNodes(nodes);
  const sources: Source[] = [];
  for (let node = 0; node < nodes.count; node++) {
    const op = nodes.op[node];
    if (isMemoryOperator(op) || op === Op.blackBox || op === Op.hole) return null;
    if (!isSource(op) || op === Op.constant) continue;
    sources.push({ node: node as NodeId, name: sourceName(netlist, node), width: nodes.width[node] });
  }
  return knots.length > 0 ? null : { netlist, order: Array.from(order) as NodeId[], sources };
}

function sourceName({ latches, nodes, registers, signals }: Netlist, node: number): string {
  const aux = nodes.aux[node];
  const op = nodes.op[node];
  if (op !== Op.register && op !== Op.latch) return signals[aux].name;
  const { low, signal, width } = (op === Op.register ? registers : latches)[aux];
  return signalSliceName(signals[signal], low, width);
}

function valuesOf(
  widths: ReadonlyMap<string, number>,
  levels: string | null,
  random: () => boolean,
): ReadonlyMap<string, Bits> {
  let next = 0;
  return new Map(
    [...widths].map(([name, width]) => {
      const digits = Array.from({ length: width }, (_, bit) => levels?.[next + bit] ?? (random() ? '1' : '0')).join('');
      next += width;
      return [name, bitsOf(digits)];
    }),
  );
}

function resultsOf(
  { netlist, order, sources }: Circuit,
  given: ReadonlyMap<string, Bits>,
): ReadonlyMap<string, string> {
  const { latches, nodes, registers, signals, top } = netlist;
  const values = new Map<NodeId, Bits>();
  for (const { name, node } of sources) values.set(node, given.get(name) as Bits);
  for (const node of order) {
    if (values.has(node)) continue;
    if (nodes.op[node] === Op.constant) {
      values.set(node, netlist.constants[nodes.aux[node]]);
      continue;
    }
    const operands: Bits[] = [];
    for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++) {
      operands.push(values.get(nodes.pool[entry] as NodeId) as Bits);
    }
    values.set(node, evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], netlist));
  }
  const whole = (node: NodeId) => toBinary(values.get(node) as Bits);
  const level = ({ bit, node }: Bit) => whole(node).at(-1 - bit) ?? '';
  const results = new Map<string, string>();
  for (const { asynchronous, clock, data, edge, low, signal, width } of registers) {
    const controls = asynchronous.map(({ active, control, value }) => `${active} ${level(control)} ${whole(value)}`);
    const name = signalSliceName(signals[signal], low, width);
    results.set(name, [whole(data), edge, level(clock), ...controls].join(' '));
  }
  for (const { active, data, gate, low, signal, width } of latches) {
    results.set(`latch ${signalSliceName(signals[signal], low, width)}`, `${whole(data)} ${active} ${level(gate)}`);
  }
  for (const { instance, name, node, port } of signals) {
    if (instance === top && port !== null) results.set(`port ${name}`, whole(node));
  }
  return results;
}
