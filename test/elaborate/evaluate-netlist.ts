// Values of a netlist at one instant, for tests: given its inputs and what its registers hold, everything between.

import { evaluate } from '../../server/src/netlist/evaluate';
import { allX, type Bits } from '../../server/src/netlist/four-state';
import type { Netlist, NodeId } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';
import { orderNodes } from '../../server/src/netlist/order';
import { checkWidths } from '../../server/src/netlist/width-rules';

export interface Given {
  /** By signal name. */
  readonly inputs: Readonly<Record<string, Bits>>;
}

/** Throws where a node breaks the rule of widths of its operator, or reads what is not there. */
export function checkNodes({ nodes }: Netlist): void {
  for (let node = 0; node < nodes.count; node++) {
    const operands = Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]));
    if (operands.some((operand) => operand >= nodes.count)) throw new Error(`node ${node} reads beyond the last`);
    checkWidths(nodes, nodes.op[node], nodes.width[node], operands as NodeId[], nodes.aux[node]);
  }
}

/** The value of a node; registers and latches hold their start values. */
export function valuesOf(netlist: Netlist, { inputs }: Given): (node: NodeId) => Bits {
  const { nodes } = netlist;
  const values: Bits[] = [];
  for (const node of orderNodes(nodes).order) {
    const operands = Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]));
    const aux = nodes.aux[node];
    switch (nodes.op[node]) {
      case Op.constant:
        values[node] = netlist.constants[aux];
        break;
      case Op.input:
        values[node] = inputs[netlist.signals[aux].name] ?? allX(nodes.width[node]);
        break;
      case Op.register:
        values[node] = netlist.registers[aux].initial;
        break;
      case Op.latch:
        values[node] = netlist.latches[aux].initial;
        break;
      case Op.undriven:
      case Op.hole:
        values[node] = allX(nodes.width[node]);
        break;
      default: {
        const known = operands.map((operand) => values[operand]);
        values[node] = evaluate(nodes.op[node], nodes.width[node], known, aux, netlist);
      }
    }
  }
  return (node) => values[node];
}
