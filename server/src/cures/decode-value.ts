// What a decode gives for given values of its registers.

import { type Bits, bitsOf, toBinary } from '../netlist/four-state';
import { combinationalCone } from '../netlist/cone';
import { evaluate } from '../netlist/evaluate';
import type { Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';

/** Binary digits of a node; null where it hears anything else than these registers, or is unknown. */
export function valueUnder(netlist: Netlist, node: NodeId, digits: ReadonlyMap<RegisterId, string>): string | null {
  const { nodes } = netlist;
  const cone = combinationalCone(nodes, [node]);
  const values = new Map<number, Bits>();
  for (const next of orderNodes(nodes).order) {
    if (cone[next] === 0) continue;
    const op = nodes.op[next];
    if (op === Op.constant) values.set(next, netlist.constants[nodes.aux[next]]);
    else if (op === Op.register) {
      const text = digits.get(nodes.aux[next] as RegisterId);
      if (text === undefined) return null;
      values.set(next, bitsOf(text));
    } else if (isSource(op)) return null;
    else {
      const operands: Bits[] = [];
      for (let entry = nodes.first[next]; entry < nodes.first[next] + nodes.arity[next]; entry++) {
        const operand = values.get(nodes.pool[entry]);
        if (operand === undefined) return null;
        operands.push(operand);
      }
      values.set(next, evaluate(op, nodes.width[next], operands, nodes.aux[next], netlist));
    }
  }
  const found = values.get(node);
  const text = found === undefined ? '' : toBinary(found);
  return /^[01]+$/.test(text) ? text : null;
}
