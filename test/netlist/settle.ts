// The values of all nodes of a finished netlist from values of its sources, for tests: one pass in order.

import { evaluate, type OperatorTables } from '../../server/src/netlist/evaluate';
import type { Bits } from '../../server/src/netlist/four-state';
import type { NodeColumns, NodeId } from '../../server/src/netlist/netlist';
import { isSource, Op } from '../../server/src/netlist/operators';
import { orderNodes } from '../../server/src/netlist/order';

export function settle(
  nodes: NodeColumns,
  constants: readonly Bits[],
  tables: OperatorTables,
  sourceValue: (node: NodeId) => Bits,
): Bits[] {
  const values: Bits[] = [];
  for (const node of orderNodes(nodes).order) {
    const op = nodes.op[node];
    if (op === Op.constant) values[node] = constants[nodes.aux[node]];
    else if (isSource(op)) values[node] = sourceValue(node as NodeId);
    else {
      const first = nodes.first[node];
      const operands = Array.from(nodes.pool.subarray(first, first + nodes.arity[node]), (operand) => values[operand]);
      values[node] = evaluate(op, nodes.width[node], operands, nodes.aux[node], tables);
    }
  }
  return values;
}
