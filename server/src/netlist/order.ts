// An order in which every node stands after its operands, and how deep each stands. Nodes that feed themselves
// stand together; which of their bits really do is asked of `loops.ts`.

import { impossible } from '../text/impossible';
import type { NodeColumns, NodeId } from './netlist';

export interface NodeOrder {
  /** All nodes, operands first (inside a knot: by node number). Sources come in ascending order. */
  readonly order: Uint32Array;
  /** 0 for sources and constants, else 1 + the deepest operand's; nodes of a knot share one. */
  readonly level: Uint32Array;
  /** Sets of nodes that feed each other without a register between, or one that feeds itself. Ascending. */
  readonly knots: readonly (readonly NodeId[])[];
}

export function orderNodes(nodes: NodeColumns): NodeOrder {
  return impossible(`not built: ${nodes.count}`);
}
