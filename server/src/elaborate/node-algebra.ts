// Expressions as drafted nodes: the hardware reading (definition 15). Case equality is read as equality, and said.

import type { NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Algebra } from './algebra';
import { narrowed } from './narrow';
import { compare } from './narrow-comparison';
import type { ModuleDraft } from './module-draft';

export function createNodeAlgebra({
  nodes,
  source,
  log,
}: Pick<ModuleDraft, 'nodes' | 'source' | 'log'>): Algebra<NodeId> {
  return {
    constant: (bits, at) => nodes.constant(bits, source.place(at)),
    apply: (op, width, operands, aux, at) => nodes.add(op, width, operands, aux, source.place(at)),
    widthOf: (node) => nodes.nodes.width[node],
    constantOf: (node) => nodes.constantOf(node),
    compare: (op, left, right, at) => compare(nodes, op, left, right, source.place(at)),
    caseEqual(left, right, at) {
      log.add('case-equality', { text: source.textOf(at) }, source.place(at));
      return compare(nodes, Op.equal, left, right, source.place(at));
    },
    narrow: (node, width) => narrowed(nodes, node, width),
    hole: (width, complaint, at) => nodes.add(Op.hole, width, [], complaint, source.place(at)),
  };
}
