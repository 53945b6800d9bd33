// Drafted nodes into the nodes of a finished module: names become nets by driver, holds become the registers and
// latches of their process, everything reachable is made once more, simplified again.

import { evaluate } from '../netlist/evaluate';
import { type Bits, digitBits, zero } from '../netlist/four-state';
import { replaceSlice } from '../netlist/four-state-parts';
import type { MemoryContents } from '../netlist/memory-contents';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { isMemoryOperator, Op, type OpCode } from '../netlist/operators';

export interface DraftMeanings {
  /** Bits [low + width - 1 : low] of a signal, by its number in the draft. */
  signalBits(signal: number, low: number, width: number): NodeId;
  /** The whole signal as its process keeps it, by the number of the hold. */
  holdNode(hold: number): NodeId;
  /** The memory that an array of the draft, by its number there, became. */
  memory(array: number): { readonly memory: number; readonly contents: MemoryContents };
  /** The memory whose content a signal, or a hold, is; null for all others. */
  memoryOfSignal(signal: number): number | null;
  memoryOfHold(hold: number): number | null;
}

/** Converts one drafted node and all it needs; asked again, gives the same. */
export function createConverter(
  draft: NodeBuilder,
  made: NodeBuilder,
  meanings: DraftMeanings,
): (node: NodeId) => NodeId {
  const known = new Map<NodeId, NodeId>();
  const wildcards = new Map<number, number>();
  /** By drafted choice between contents: the memory. */
  const chosenContents = new Map<NodeId, number>();
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
        if (op === Op.mux || op === Op.select) return makeChoice(node, operands);
        if (op === Op.memoryFill) return makeFill(node, operands);
        return made.add(op, width, operands, isMemoryOperator(op) ? meanings.memory(aux).memory : aux, place);
      }
    }
  }

  /** What gives a memory one value whatever it held, a reset above all, is a constant. */
  function makeFill(node: NodeId, operands: readonly NodeId[]): NodeId {
    const { memory, contents } = meanings.memory(nodes.aux[node]);
    const place = draft.places[nodes.place[node]];
    const known = operands.map((operand) => made.constantOf(operand)).filter((bits) => bits !== null);
    if (known.length < operands.length) return made.add(Op.memoryFill, nodes.width[node], operands, memory, place);
    const tables = { resolutions: [], caseWildcards: [], memories: [{ contents }] };
    return made.constant(evaluate(Op.memoryFill, nodes.width[node], known, 0, tables), place);
  }

  /** A choice between contents knows its memory: contents are no words whose bits could be merged. */
  function makeChoice(node: NodeId, operands: readonly NodeId[]): NodeId {
    const op = nodes.op[node] as typeof Op.mux | typeof Op.select;
    const width = nodes.width[node];
    const place = draft.places[nodes.place[node]];
    const aux = op === Op.select ? wildcardsOf(nodes.aux[node]) : nodes.aux[node];
    const isValue = (index: number) =>
      op === Op.mux ? index > 0 : index > 0 && (index % 2 === 0 || index === operands.length - 1);
    const values = operands.filter((_, index) => isValue(index));
    const memory = memoryOfChoice(node, isValue);
    if (memory === null) return made.add(op, width, operands, aux, place);
    chosenContents.set(node, memory);
    if (op === Op.mux) return made.add(op, width, operands, memory + 1, place);
    let position = 0;
    const chosen = operands.map((operand, index) =>
      isValue(index) ? made.constant(oneBit(values.length, position++), place) : operand,
    );
    const which = made.add(op, values.length, chosen, aux, place);
    return made.add(Op.memoryPick, width, [which, ...values], memory, place);
  }

  function memoryOfChoice(node: NodeId, isValue: (index: number) => boolean): number | null {
    for (let index = 0; index < nodes.arity[node]; index++) {
      const memory = isValue(index) ? memoryOf(nodes.pool[nodes.first[node] + index] as NodeId) : null;
      if (memory !== null) return memory;
    }
    return null;
  }

  /** The memory whose content a drafted node is. */
  function memoryOf(node: NodeId): number | null {
    const aux = nodes.aux[node];
    switch (nodes.op[node]) {
      case Op.net:
        return meanings.memoryOfSignal(aux);
      case Op.register:
        return meanings.memoryOfHold(aux);
      case Op.memoryWrite:
      case Op.memoryFill:
      case Op.memoryPick:
        return meanings.memory(aux).memory;
      default:
        return chosenContents.get(node) ?? null;
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

function oneBit(width: number, bit: number): Bits {
  return replaceSlice(zero(width), bit, digitBits('1'));
}

/** A drafted name reads itself until it gets its meaning. */
function isName(op: number): boolean {
  return op === Op.net;
}
