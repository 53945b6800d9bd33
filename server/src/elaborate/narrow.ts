// The low bits of a value, computed at their own width where the operators allow it: `q <= q + 1` on four bits is a
// four-bit adder, though 1 has 32 bits (IEEE 1364-2005 5.4). Only the hardware reading may do so: to the letter, an
// unknown bit that is cut off would make the whole sum unknown (5.1.5).

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { sliceOf } from '../netlist/node-makers';
import { Op, type OpCode } from '../netlist/operators';

/** Operators inside one another further down keep their width, and are cut. */
const deepest = 500;

export function narrowed(builder: NodeBuilder, root: NodeId, width: number): NodeId {
  const { nodes } = builder;
  const known = new Map<NodeId, NodeId>();

  function narrow(node: NodeId, depth: number): NodeId {
    const found = known.get(node);
    if (found !== undefined) return found;
    const place = builder.places[nodes.place[node]];
    const op = nodes.op[node] as OpCode;
    const operands = Array.from(
      nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]),
    ) as NodeId[];
    const kept = depth < deepest ? keptOperands(op, operands.length) : null;
    const result =
      kept === null
        ? sliceOf(builder, node, 0, width, place)
        : builder.add(
            op,
            width,
            operands.map((operand, index) => (kept(index) ? operand : narrow(operand, depth + 1))),
            nodes.aux[node],
            place,
          );
    known.set(node, result);
    return result;
  }

  return nodes.width[root] <= width ? root : narrow(root, 0);
}

/** Operators whose low bits hang on their operands' low bits alone: which operands stay whole. Null for all others. */
function keptOperands(op: OpCode, count: number): ((index: number) => boolean) | null {
  switch (op) {
    case Op.add:
    case Op.subtract:
    case Op.multiply:
    case Op.negate:
    case Op.not:
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.xor:
    case Op.xnor:
      return () => false;
    case Op.shiftLeft:
      return (index) => index === 1;
    case Op.mux:
      return (index) => index === 0;
    case Op.select:
      return (index) => (index !== count - 1 && index % 2 !== 0) || index === 0;
    default:
      return null;
  }
}
