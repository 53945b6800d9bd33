// What decides a memory's content besides contents: what is written, where, and under which conditions. The bits of a
// content itself are one number and no bits of the design.

import type { Bit, NodeColumns, NodeId } from './netlist';
import { Op } from './operators';

/** Each bit once, in the order met, back to registers. `content`: a node that is one. */
export function contentInputs(nodes: NodeColumns, content: NodeId): readonly Bit[] {
  const found = new Set<NodeId>();
  const seen = new Set<NodeId>();
  const waiting = [content];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    for (let index = 0; index < nodes.arity[node]; index++) {
      const operand = nodes.pool[nodes.first[node] + index] as NodeId;
      if (isContent(nodes.op[node], index)) waiting.push(operand);
      else found.add(operand);
    }
  }
  return [...found].flatMap((node) => Array.from({ length: nodes.width[node] }, (_, bit) => ({ node, bit })));
}

/** Whether this operand of what gives a content is one itself. */
function isContent(op: number, index: number): boolean {
  switch (op) {
    case Op.mux:
    case Op.memoryPick:
      return index > 0;
    case Op.memoryWrite:
    case Op.memoryFill:
      return index === 0;
    default:
      return true;
  }
}
