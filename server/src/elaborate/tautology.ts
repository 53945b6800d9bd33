// Whether a condition holds whatever its inputs are, by trying all of them where they are few: `if (a) …; if (!a) …`
// assigns on every path though no single statement does.

import { evaluate } from '../netlist/evaluate';
import { type Bits, bitsOf } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op } from '../netlist/operators';

const mostBits = 8;
const mostNodes = 200;

const answers = new WeakMap<NodeBuilder, Map<NodeId, boolean>>();

export function isAlwaysTrue(nodes: NodeBuilder, condition: NodeId): boolean {
  const known = answers.get(nodes) ?? new Map<NodeId, boolean>();
  answers.set(nodes, known);
  const answer = known.get(condition) ?? holdsAlways(nodes, condition);
  known.set(condition, answer);
  return answer;
}

function holdsAlways(nodes: NodeBuilder, condition: NodeId): boolean {
  const cone = coneOf(nodes, condition);
  if (cone === null) return false;
  const bits = [...new Set(cone.flatMap((node) => leafBits(nodes, node)))];
  if (bits.length > mostBits) return false;
  for (let trial = 0; trial < 1 << bits.length; trial++) {
    const values = new Map(bits.map((bit, index) => [bit, `${(trial >> index) & 1}`]));
    if (!holds(nodes, condition, cone, values)) return false;
  }
  return true;
}

/** Every node of the condition down to what is not logic, operands first; null where they are many. */
function coneOf(nodes: NodeBuilder, condition: NodeId): NodeId[] | null {
  const seen = new Set<NodeId>([condition]);
  for (const node of seen) {
    if (seen.size > mostNodes) return null;
    if (!isLeaf(nodes, node)) for (const operand of operandsOf(nodes, node)) seen.add(operand);
  }
  return [...seen].sort((left, right) => left - right);
}

/** Operators that are looked into. */
const logic: ReadonlySet<number> = new Set([
  Op.constant,
  Op.concat,
  Op.buf,
  Op.not,
  Op.and,
  Op.nand,
  Op.or,
  Op.nor,
  Op.xor,
  Op.xnor,
  Op.reduceAnd,
  Op.reduceOr,
  Op.reduceXor,
  Op.equal,
  Op.notEqual,
  Op.lessUnsigned,
  Op.lessSigned,
  Op.lessEqualUnsigned,
  Op.lessEqualSigned,
  Op.mux,
  Op.select,
]);

function isLeaf({ nodes }: NodeBuilder, node: NodeId): boolean {
  return !logic.has(nodes.op[node]);
}

/** A leaf's bits by the node they belong to, so that two slices of one name share theirs. Most significant first. */
function leafBits(nodes: NodeBuilder, node: NodeId): string[] {
  if (!isLeaf(nodes, node)) return [];
  const { op, width, aux, first, pool } = nodes.nodes;
  const isSlice = op[node] === Op.slice;
  const base = isSlice ? pool[first[node]] : node;
  const low = isSlice ? aux[node] : 0;
  return Array.from({ length: width[node] }, (_, index) => `${base}.${low + width[node] - 1 - index}`);
}

function holds(
  builder: NodeBuilder,
  condition: NodeId,
  cone: readonly NodeId[],
  values: ReadonlyMap<string, string>,
): boolean {
  const { nodes } = builder;
  const known = new Map<NodeId, Bits>();
  for (const node of cone) {
    known.set(node, nodeValue(builder, node, known, values));
  }
  const result = known.get(condition);
  return result !== undefined && nodes.width[condition] === 1 && result.a[0] === 1 && result.b[0] === 0;
}

function nodeValue(
  builder: NodeBuilder,
  node: NodeId,
  known: ReadonlyMap<NodeId, Bits>,
  values: ReadonlyMap<string, string>,
): Bits {
  const { nodes } = builder;
  if (isLeaf(builder, node))
    return bitsOf(
      leafBits(builder, node)
        .map((bit) => values.get(bit) ?? 'x')
        .join(''),
    );
  const constant = builder.constantOf(node);
  if (constant !== null) return constant;
  const operands = operandsOf(builder, node).map((operand) => known.get(operand) ?? bitsOf('x'));
  return evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], builder);
}

function operandsOf({ nodes }: NodeBuilder, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}
