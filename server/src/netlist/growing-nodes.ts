// Node columns that can be added to: a copy of what is there, new nodes behind it.

import type { NodeColumns, NodeId } from './netlist';

export interface NewNode {
  readonly op: number;
  readonly width: number;
  readonly operands: readonly NodeId[];
  readonly aux: number;
  readonly place: number;
}

export interface GrowingNodes {
  readonly count: number;
  add(node: NewNode): NodeId;
  /** Puts another operator in a node's place; its width stays. */
  replace(node: NodeId, changes: Pick<NewNode, 'op' | 'operands' | 'aux'>): void;
  columns(): NodeColumns;
}

export function createGrowingNodes(old: NodeColumns): GrowingNodes {
  const op = Array.from(old.op.subarray(0, old.count));
  const width = Array.from(old.width.subarray(0, old.count));
  const first = Array.from(old.first.subarray(0, old.count));
  const arity = Array.from(old.arity.subarray(0, old.count));
  const aux = Array.from(old.aux.subarray(0, old.count));
  const place = Array.from(old.place.subarray(0, old.count));
  const pool = Array.from(old.pool);
  const append = (operands: readonly NodeId[]) => {
    const start = pool.length;
    for (const operand of operands) pool.push(operand);
    return start;
  };
  return {
    get count() {
      return op.length;
    },
    add(node) {
      op.push(node.op);
      width.push(node.width);
      first.push(append(node.operands));
      arity.push(node.operands.length);
      aux.push(node.aux);
      return (place.push(node.place) - 1) as NodeId;
    },
    replace(node, changes) {
      op[node] = changes.op;
      first[node] = append(changes.operands);
      arity[node] = changes.operands.length;
      aux[node] = changes.aux;
    },
    columns: () => ({
      count: op.length,
      op: Uint8Array.from(op),
      width: Uint32Array.from(width),
      first: Uint32Array.from(first),
      arity: Uint32Array.from(arity),
      aux: Int32Array.from(aux),
      place: Int32Array.from(place),
      pool: Uint32Array.from(pool),
    }),
  };
}
