// The bits of the nodes of a knot, each as a node of width 1 that hears only the bits it really depends on: exact for
// wiring, gates and choices; in order of carries for sums and products; whole words for the rest.

import type { NodeColumns, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { impossible } from '../text/impossible';
import type { GrowingNodes } from '../netlist/growing-nodes';

export interface BitBlaster {
  /** Bits of a node, least significant first. */
  bitsOf(node: NodeId): readonly NodeId[];
}

/** Sums and shifts wider than this are not split: their parts would outgrow them. */
const widestCarry = 64;

interface PartOf {
  readonly bit: number;
  /** Bits [until - 1 : from] of an operand. */
  take(operand: NodeId, from: number, until: number): NodeId;
}

/** A bit of the operator on parts of its operands. */
interface PartBit {
  readonly operands: readonly NodeId[];
  readonly width: number;
  readonly at: number;
}

/** `nets`: the bits of the nets of the knot, made before. `inKnot`: 1 for its nodes. */
export function createBitBlaster(
  nodes: NodeColumns,
  grown: GrowingNodes,
  nets: ReadonlyMap<NodeId, readonly NodeId[]>,
  inKnot: Uint8Array,
): BitBlaster {
  const known = new Map<NodeId, readonly NodeId[]>(nets);

  const operandsOf = (node: NodeId) =>
    Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];

  const sliceOf = (node: NodeId, low: number, width: number) =>
    grown.add({ op: Op.slice, width, operands: [node], aux: low, place: nodes.place[node] });

  /** A word of bits again. */
  const wordOf = (bits: readonly NodeId[], place: number): NodeId =>
    bits.length === 1
      ? bits[0]
      : grown.add({ op: Op.concat, width: bits.length, operands: [...bits].reverse(), aux: 0, place });

  function outside(node: NodeId): NodeId[] {
    if (nodes.width[node] === 1) return [node];
    if (nodes.op[node] === Op.slice) {
      const base = nodes.pool[nodes.first[node]] as NodeId;
      return Array.from({ length: nodes.width[node] }, (_, bit) => sliceOf(base, nodes.aux[node] + bit, 1));
    }
    return Array.from({ length: nodes.width[node] }, (_, bit) => sliceOf(node, bit, 1));
  }

  function make(node: NodeId): readonly NodeId[] {
    if (inKnot[node] === 0) return outside(node);
    const width = nodes.width[node];
    const aux = nodes.aux[node];
    const place = nodes.place[node];
    const operands = operandsOf(node);
    const op = nodes.op[node];
    const bits = (operand: NodeId) => known.get(operand) ?? impossible(`operand ${operand} was not split`);
    const word = (operand: NodeId) => (inKnot[operand] === 0 ? operand : wordOf(bits(operand), place));
    const perBit = (whole: (index: number) => boolean) => {
      const words = operands.map((operand, index) => (whole(index) ? word(operand) : null));
      return Array.from({ length: width }, (_, bit) =>
        grown.add({
          op,
          width: 1,
          operands: operands.map((operand, index) => words[index] ?? bits(operand)[bit]),
          aux,
          place,
        }),
      );
    };
    /** Each bit out of the operator applied to the part of its operands that the bit hears. */
    const partBits = (part: (of: PartOf) => PartBit) =>
      Array.from({ length: width }, (_, bit) => {
        const take = (operand: NodeId, from: number, until: number) => wordOf(bits(operand).slice(from, until), place);
        const { operands: parts, width: partWidth, at } = part({ bit, take });
        const whole = grown.add({ op, width: partWidth, operands: parts, aux, place });
        return partWidth === 1 ? whole : grown.add({ op: Op.slice, width: 1, operands: [whole], aux: at, place });
      });
    switch (op) {
      case Op.concat:
        return operands.reverse().flatMap((operand) => [...bits(operand)]);
      case Op.slice:
        return bits(operands[0]).slice(aux, aux + width);
      case Op.signExtend: {
        const own = bits(operands[0]);
        return Array.from({ length: width }, (_, bit) => own[Math.min(bit, own.length - 1)]);
      }
      case Op.buf:
      case Op.not:
      case Op.and:
      case Op.nand:
      case Op.or:
      case Op.nor:
      case Op.xor:
      case Op.xnor:
      case Op.delay:
      case Op.resolve:
        return perBit(() => false);
      case Op.tristate:
        return perBit((index) => index === 1);
      case Op.mux:
        return perBit((index) => index === 0);
      case Op.select:
        return perBit((index) => index !== operands.length - 1 && (index === 0 || index % 2 === 1));
      case Op.add:
      case Op.subtract:
      case Op.negate:
      case Op.multiply:
        if (width > widestCarry) break;
        return partBits(({ bit, take }) => ({
          operands: operands.map((operand) => take(operand, 0, bit + 1)),
          width: bit + 1,
          at: bit,
        }));
      case Op.shiftLeft:
        if (width > widestCarry) break;
        return partBits(({ bit, take }) => ({
          operands: [take(operands[0], 0, bit + 1), word(operands[1])],
          width: bit + 1,
          at: bit,
        }));
      case Op.shiftRight:
      case Op.shiftRightSigned:
        if (width > widestCarry) break;
        return partBits(({ bit, take }) => ({
          operands: [take(operands[0], bit, width), word(operands[1])],
          width: width - bit,
          at: 0,
        }));
    }
    const whole = grown.add({ op, width, operands: operands.map(word), aux, place });
    return width === 1
      ? [whole]
      : Array.from({ length: width }, (_, bit) =>
          grown.add({ op: Op.slice, width: 1, operands: [whole], aux: bit, place }),
        );
  }

  return {
    bitsOf(root) {
      const stack = [root];
      for (let node = stack.at(-1); node !== undefined; node = stack.at(-1)) {
        const waiting =
          known.has(node) || inKnot[node] === 0 ? [] : operandsOf(node).filter((operand) => !known.has(operand));
        if (waiting.length > 0) {
          stack.push(...waiting);
          continue;
        }
        if (!known.has(node)) known.set(node, make(node));
        stack.pop();
      }
      return known.get(root) ?? [];
    },
  };
}
