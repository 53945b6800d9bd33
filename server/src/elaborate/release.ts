// Whether a value can be z: behind a tri-state gate, or where a choice has an arm of z. Looks through wiring.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op } from '../netlist/operators';

/** A walk over the drafted value of one driver; names end it. */
export function canRelease(builder: NodeBuilder, node: NodeId): boolean {
  const { nodes } = builder;
  const seen = new Set<NodeId>([node]);
  for (const at of seen) {
    const operands = Array.from(nodes.pool.subarray(nodes.first[at], nodes.first[at] + nodes.arity[at])) as NodeId[];
    switch (nodes.op[at]) {
      case Op.tristate:
        return true;
      case Op.constant:
        if (hasZ(builder, at)) return true;
        break;
      case Op.mux:
        for (const arm of operands.slice(1)) seen.add(arm);
        break;
      case Op.select:
        operands.forEach((operand, index) => {
          if (index > 0 && (index % 2 === 0 || index === operands.length - 1)) seen.add(operand);
        });
        break;
      case Op.slice:
      case Op.concat:
      case Op.delay:
      case Op.resolve:
        for (const operand of operands) seen.add(operand);
        break;
    }
  }
  return false;
}

function hasZ(builder: NodeBuilder, node: NodeId): boolean {
  const bits = builder.constantOf(node);
  return bits?.b.some((limb, index) => (limb & ~bits.a[index]) !== 0) ?? false;
}
