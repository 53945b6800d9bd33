// Drafted nodes into the nodes of a finished module: names become nets by driver, holds become the registers and
// latches of their process, everything reachable is made once more, simplified again.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op, type OpCode } from '../netlist/operators';

export interface DraftMeanings {
  /** Bits [low + width - 1 : low] of a signal, by its number in the draft. */
  signalBits(signal: number, low: number, width: number): NodeId;
  /** The whole signal as its process keeps it, by the number of the hold. */
  holdNode(hold: number): NodeId;
}

/** Converts one drafted node and all it needs; asked again, gives the same. */
export function createConverter(
  draft: NodeBuilder,
  made: NodeBuilder,
  meanings: DraftMeanings,
): (node: NodeId) => NodeId {
  const known = new Map<NodeId, NodeId>();
  const wildcards = new Map<number, number>();
  const { nodes } = draft;

  function make(node: NodeId): NodeId {
    const op = nodes.op[node] as OpCode;
    const width = nodes.width[node];
    const aux = nodes.aux[node];
    const place = draft.places[nodes.place[node]];
    switch (op) {
      case Op.net:
        return meanings.signalBits(aux, 0, width);
      case Op.slice: {
        const whole = nodes.pool[nodes.first[node]];
        if (isName(nodes.op[whole])) return meanings.signalBits(nodes.aux[whole], aux, width);
        return made.add(op, width, [known.get(whole as NodeId) as NodeId], aux, place);
      }
      case Op.register:
        return meanings.holdNode(aux);
      case Op.constant:
        return made.constant(draft.constants[aux], place);
      default: {
        const operands: NodeId[] = [];
        for (let index = 0; index < nodes.arity[node]; index++) {
          const operand = nodes.pool[nodes.first[node] + index] as NodeId;
          operands.push(known.get(operand) ?? make(operand));
        }
        return made.add(op, width, operands, op === Op.select ? wildcardsOf(aux) : aux, place);
      }
    }
  }

  function wildcardsOf(aux: number): number {
    if (aux < 0) return aux;
    const copied = wildcards.get(aux) ?? made.addWildcards(draft.caseWildcards[aux]);
    wildcards.set(aux, copied);
    return copied;
  }

  /** Whether operands have to come first, which it puts on the stack. */
  function waitFor(node: NodeId, stack: NodeId[]): boolean {
    const height = stack.length;
    const end = nodes.first[node] + nodes.arity[node];
    for (let index = nodes.first[node]; index < end; index++) {
      const operand = nodes.pool[index] as NodeId;
      if (!known.has(operand) && !isName(nodes.op[operand])) stack.push(operand);
    }
    return stack.length > height;
  }

  return function convert(root) {
    const stack = [root];
    for (let node = stack.at(-1); node !== undefined; node = stack.at(-1)) {
      if (!known.has(node)) {
        if (waitFor(node, stack)) continue;
        known.set(node, make(node));
      }
      stack.pop();
    }
    return known.get(root) as NodeId;
  };
}

/** A drafted name reads itself until it gets its meaning. */
function isName(op: number): boolean {
  return op === Op.net;
}
