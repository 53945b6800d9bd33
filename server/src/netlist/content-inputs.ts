// What decides a memory's content besides contents: what is written, where, and under which conditions. The bits of a
// content itself are one number and no bits of the design.

import type { Bit, NodeColumns, NodeId } from './netlist';
import { Op } from './operators';

export interface ContentInput {
  readonly bit: Bit;
  /** Written as it is, or deciding where and whether. */
  readonly role: 'written' | 'deciding';
}

/** Each bit once, in the order met, back to registers. `content`: a node that is one. */
export function contentInputs(nodes: NodeColumns, content: NodeId): readonly ContentInput[] {
  const found: ContentInput[] = [];
  const met = new Set<NodeId>();
  const seen = new Set<NodeId>();
  const waiting = [content];
  const add = (node: NodeId, role: ContentInput['role']): void => {
    if (met.has(node)) return;
    met.add(node);
    for (let bit = 0; bit < nodes.width[node]; bit++) found.push({ bit: { node, bit }, role });
  };
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    const operands = Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]));
    for (const [index, operand] of (operands as NodeId[]).entries()) {
      const role = roleOf(nodes.op[node], index);
      if (role === 'content') waiting.push(operand);
      else if (role !== null) add(operand, role);
    }
  }
  return found;
}

function roleOf(op: number, index: number): ContentInput['role'] | 'content' | null {
  switch (op) {
    case Op.net:
    case Op.delay:
      return 'content';
    case Op.mux:
    case Op.memoryPick:
      return index === 0 ? 'deciding' : 'content';
    case Op.memoryWrite:
    case Op.memoryFill:
      return index === 0 ? 'content' : index === 1 ? 'written' : 'deciding';
    default:
      return null;
  }
}
