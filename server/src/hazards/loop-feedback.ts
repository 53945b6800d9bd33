// What a combinational loop does with a value that goes round it: keeps it, turns it over, or one or the other. Told by
// the inversions on the way, which must come out even or odd alike on every way round; and whether a loop that keeps its
// value is storage somebody built from gates (definition 40): flip-flops of six NANDs as well as two that hold each other.

import { bitKey } from '../netlist/bit-key';
import type { Bit, NodeColumns } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';

export type Feedback = 'keeps' | 'inverts' | 'either';

export function feedbackOf(nodes: NodeColumns, loop: readonly Bit[]): Feedback {
  const edges = edgesInside(nodes, loop);
  if (edges.some(({ turn }) => turn === 'either')) return 'either';
  return hasEvenWays(loop, edges) ? 'keeps' : 'inverts';
}

/** Gates and names alone, some of them inverting, a value that is kept, and at least two gates with a control outside. */
export function isGateLatch(nodes: NodeColumns, loop: readonly Bit[]): boolean {
  const members = new Set(loop.map(bitKey));
  const gates = loop.filter(({ node }) => !passing(nodes, node));
  return (
    gates.every(({ node }) => controlled.has(nodes.op[node]) || nodes.op[node] === Op.not) &&
    gates.some(({ node }) => inverting.has(nodes.op[node])) &&
    gates.filter((gate) => hasControl(nodes, members, gate)).length > 1 &&
    feedbackOf(nodes, loop) === 'keeps'
  );
}

const controlled: ReadonlySet<number> = new Set([Op.and, Op.nand, Op.or, Op.nor]);
const inverting: ReadonlySet<number> = new Set([Op.not, Op.nand, Op.nor]);

function passing({ op }: NodeColumns, node: number): boolean {
  return isWiring(op[node]) || op[node] === Op.buf || op[node] === Op.delay;
}

function hasControl(nodes: NodeColumns, members: ReadonlySet<number>, gate: Bit): boolean {
  let outside = 0;
  visitOperandsOfBit(nodes, gate, (node, bit) => {
    if (!members.has(bitKey({ node, bit }))) outside++;
  });
  return outside > 0;
}

interface Edge {
  readonly from: number;
  readonly to: number;
  readonly turn: 'same' | 'opposite' | 'either';
}

function edgesInside(nodes: NodeColumns, loop: readonly Bit[]): Edge[] {
  const members = new Set(loop.map(bitKey));
  const edges: Edge[] = [];
  for (const to of loop) {
    visitOperandsOfBit(nodes, to, (node, bit) => {
      const from = bitKey({ node, bit });
      if (members.has(from)) edges.push({ from, to: bitKey(to), turn: turnOf(nodes, to, node) });
    });
  }
  return edges;
}

/** A choice passes its arms as they are; what it does with its select depends on them. */
function turnOf(nodes: NodeColumns, { node }: Bit, operand: number): Edge['turn'] {
  const op = nodes.op[node];
  if (inverting.has(op)) return 'opposite';
  if (controlled.has(op) || passing(nodes, node)) return 'same';
  const isArm = (op === Op.mux || op === Op.select) && nodes.pool[nodes.first[node]] !== operand;
  return isArm ? 'same' : 'either';
}

/** Whether every bit can be given a side such that each edge keeps or changes it as it says. */
function hasEvenWays(loop: readonly Bit[], edges: readonly Edge[]): boolean {
  const leaving = new Map<number, Edge[]>();
  for (const edge of edges) leaving.set(edge.from, [...(leaving.get(edge.from) ?? []), edge]);
  const sides = new Map([[bitKey(loop[0]), 0]]);
  const waiting = [bitKey(loop[0])];
  for (let from = waiting.pop(); from !== undefined; from = waiting.pop()) {
    for (const { to, turn } of leaving.get(from) ?? []) {
      const side = ((sides.get(from) ?? 0) + (turn === 'opposite' ? 1 : 0)) % 2;
      const known = sides.get(to);
      if (known !== undefined && known !== side) return false;
      if (known !== undefined) continue;
      sides.set(to, side);
      waiting.push(to);
    }
  }
  return true;
}
