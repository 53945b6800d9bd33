// What a combinational loop does with a value that goes round it: keeps it, turns it over, or one or the other. Told by
// the inversions on the way, which must come out even or odd alike on every way round.

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

/** Names, buffers and delays. */
export function isPassing({ op }: NodeColumns, node: number): boolean {
  return isWiring(op[node]) || op[node] === Op.buf || op[node] === Op.delay;
}

export const controlledGates: ReadonlySet<number> = new Set([Op.and, Op.nand, Op.or, Op.nor]);
export const invertingGates: ReadonlySet<number> = new Set([Op.not, Op.nand, Op.nor]);

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
  if (invertingGates.has(op)) return 'opposite';
  if (controlledGates.has(op) || isPassing(nodes, node)) return 'same';
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
