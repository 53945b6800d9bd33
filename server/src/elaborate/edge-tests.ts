// Whether a condition tests signals of an edge list the way register inference accepts (definition 12, after IEEE
// 1364.1): s, !s, ~s, s == 0 or 1, a bit of a vector, an alias or inverse by net, or an OR of such.

import type { NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { isSameSource, traceBit, type TracedBit } from './draft-trace';
import type { EdgeDraft, ModuleDraft } from './module-draft';

export interface EdgeTest {
  readonly edge: EdgeDraft;
  /** The level of the edge's own node at which the condition is true. */
  readonly level: 'high' | 'low';
}

/** The signals tested, in the order written; null where the condition is no accepted test of these edges. */
export function edgeTests(draft: ModuleDraft, condition: NodeId, edges: readonly EdgeDraft[]): EdgeTest[] | null {
  const sources = edges.map((edge) => ({ edge, traced: traceBit(draft, edge.node, 0) }));
  const tests: EdgeTest[] = [];
  const pending: TracedBit[] = [{ node: condition, bit: 0, inverted: false }];
  for (let next = pending.shift(); next !== undefined; next = pending.shift()) {
    const reached = traceBit(draft, next.node, next.bit);
    const inverted = reached.inverted !== next.inverted;
    const found = sources.find(({ traced }) => isSameSource(traced, reached));
    if (found !== undefined) {
      tests.push({ edge: found.edge, level: found.traced.inverted === inverted ? 'high' : 'low' });
      continue;
    }
    const alternatives = alternativesOf(draft, { ...reached, inverted });
    if (alternatives === null) return null;
    pending.unshift(...alternatives);
  }
  return tests;
}

/** The operands of an OR; also of an AND or NOR seen inverted, which is the same test written the other way. */
function alternativesOf({ nodes }: ModuleDraft, { node, bit, inverted }: TracedBit): TracedBit[] | null {
  const { op, first, arity, pool, width } = nodes.nodes;
  const operands = Array.from(pool.subarray(first[node], first[node] + arity[node])) as NodeId[];
  switch (op[node]) {
    case Op.or:
      return inverted ? null : operands.map((operand) => ({ node: operand, bit, inverted }));
    case Op.nor:
      return inverted ? operands.map((operand) => ({ node: operand, bit, inverted: false })) : null;
    case Op.and:
      return inverted ? operands.map((operand) => ({ node: operand, bit, inverted })) : null;
    case Op.nand:
      return inverted ? null : operands.map((operand) => ({ node: operand, bit, inverted: true }));
    case Op.reduceOr:
      if (inverted) return null;
      return Array.from({ length: width[operands[0]] }, (_, index) => ({
        node: operands[0],
        bit: width[operands[0]] - 1 - index,
        inverted,
      }));
    default:
      return null;
  }
}
