// Walks of single bits: to their source, and to the operand bits they hear.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../server/src/netlist/evaluate';
import { bitsOf, toBinary } from '../../server/src/netlist/four-state';
import type { Bit, NetPieceId, NodeId } from '../../server/src/netlist/netlist';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import { operandsOfBit, sourceBit, sourceBitPastBuffers } from '../../server/src/netlist/trace';
import { circuit, type Wire } from '../tools/circuit';
import { knownDigitsOfWidth } from './arbitraries';

const bitOf = (wire: Wire, bit = 0): Bit => ({ node: wire.node, bit });

describe('the source of a bit', () => {
  it('is found through nets, ports, slices, concats and extensions', () => {
    const c = circuit();
    const a = c.input('a', { width: 4 });
    const b = c.input('b', { width: 2 });
    const port = c.net('u1.d', c.concat(b, a.bits(2, 1)));
    const wide = c.net('u1.wide', c.signExtend(c.net('u1.copy', port), 9));
    const netlist = c.build();
    const [inputA, inputB] = [a, b].map(({ node }) => sourceBit(netlist.nodes, { node, bit: 0 }).node);
    const found = Array.from({ length: 9 }, (_, bit) => sourceBit(netlist.nodes, bitOf(wide, bit)));
    expect(found.slice(0, 4)).toEqual([
      { node: inputA, bit: 1 },
      { node: inputA, bit: 2 },
      { node: inputB, bit: 0 },
      { node: inputB, bit: 1 },
    ]);
    expect(new Set(found.slice(4).map(({ node, bit }) => `${node} ${bit}`))).toEqual(new Set([`${inputB} 1`]));
    expect(netlist.nodes.op[inputA]).toBe(Op.input);
  });

  it('is a constant for a bit that is extended by zeros', () => {
    const c = circuit();
    const a = c.input('a', { width: 2 });
    const wide = c.net('wide', c.zeroExtend(a, 4));
    const { nodes, constants } = c.build();
    const found = sourceBit(nodes, bitOf(wide, 3));
    expect(nodes.op[found.node]).toBe(Op.constant);
    expect(toBinary(constants[nodes.aux[found.node]])).toBe('00');
  });

  it('stops at operators, and at buffers and delays unless asked to pass them', () => {
    const c = circuit();
    const clk = c.input('clk');
    const buffered = c.net('buffered', c.buf(clk));
    const late = c.net('late', c.delayed(buffered, 1000));
    const inverted = c.net('inverted', c.not(late));
    const { nodes } = c.build();
    expect(nodes.op[sourceBit(nodes, bitOf(late)).node]).toBe(Op.delay);
    expect(nodes.op[sourceBit(nodes, bitOf(buffered)).node]).toBe(Op.buf);
    expect(nodes.op[sourceBitPastBuffers(nodes, bitOf(late)).node]).toBe(Op.input);
    expect(nodes.op[sourceBitPastBuffers(nodes, bitOf(inverted)).node]).toBe(Op.not);
  });

  it('ends in a ring of nets, at one bit for all of it', () => {
    for (const length of [1, 2, 3, 40, 100]) {
      const c = circuit();
      const nets: Wire[] = [];
      for (let index = 0; index < length; index++) nets.push(c.net(`n${index}`, () => nets[(index + 1) % length]));
      const tail = c.net('tail', nets[0]);
      const { nodes } = c.build();
      const ends = [...nets, tail].map((net) => sourceBit(nodes, bitOf(net)).node);
      expect(new Set(ends)).toEqual(new Set([nets[0].node]));
    }
  });

  it('ends in a ring that turns the bits of one vector', () => {
    const c = circuit();
    const ring: Wire = c.net('ring', (self) => c.concat(self.bits(1, 0), self.bit(2)), { width: 3 });
    const { nodes } = c.build();
    expect([0, 1, 2].map((bit) => sourceBit(nodes, bitOf(ring, bit)))).toEqual(
      [0, 1, 2].map(() => ({ node: ring.node, bit: 0 })),
    );
  });

  it('is found at the end of a very long chain', () => {
    const c = circuit();
    let last = c.input('a');
    const first = last;
    for (let index = 0; index < 20_000; index++) last = c.net(`n${index}`, last);
    const { nodes } = c.build();
    expect(sourceBit(nodes, bitOf(last))).toEqual(sourceBit(nodes, bitOf(first)));
  });
});

/** Operators with the widths of their result and operands, and an aux. */
const shapes: readonly (readonly [OpCode, number, readonly number[], number])[] = [
  [Op.slice, 3, [6], 2],
  [Op.concat, 6, [1, 3, 2], 0],
  [Op.zeroExtend, 6, [4], 0],
  [Op.signExtend, 6, [4], 0],
  [Op.buf, 4, [4], 0],
  [Op.not, 4, [4], 0],
  [Op.and, 4, [4, 4, 4], 0],
  [Op.nor, 4, [4, 4], 0],
  [Op.xnor, 4, [4, 4], 0],
  [Op.tristate, 4, [4, 1], 0],
  [Op.reduceXor, 1, [5], 0],
  [Op.equal, 1, [4, 4], 0],
  [Op.lessSigned, 1, [4, 4], 0],
  [Op.add, 5, [5, 5], 0],
  [Op.subtract, 5, [5, 5], 0],
  [Op.negate, 5, [5], 0],
  [Op.multiply, 5, [5, 5], 0],
  [Op.divideUnsigned, 5, [5, 5], 0],
  [Op.powerUnsigned, 5, [5, 3], 0],
  [Op.shiftLeft, 5, [5, 3], 0],
  [Op.shiftRight, 5, [5, 3], 0],
  [Op.shiftRightSigned, 5, [5, 3], 0],
  [Op.mux, 4, [1, 4, 4], 0],
  [Op.select, 4, [2, 2, 4, 2, 4, 4], -1],
  [Op.readAt, 2, [6, 32], 0],
  [Op.writeAt, 6, [6, 32, 2], 0],
];

describe('the operand bits that a bit hears', () => {
  it('are as stated for the operators with a structure of their own', () => {
    const c = circuit();
    const [a, b, s] = [c.input('a', { width: 4 }), c.input('b', { width: 4 }), c.input('s')];
    const sum = c.add(a, b);
    const chosen = c.mux(s, a, b);
    const shifted = c.operator(Op.shiftLeft, 4, [a, s]);
    const { nodes } = c.build();
    const heard = (wire: Wire, bit: number) => operandsOfBit(nodes, bitOf(wire, bit));
    expect(heard(sum, 1)).toEqual([bitOf(a, 0), bitOf(a, 1), bitOf(b, 0), bitOf(b, 1)]);
    expect(heard(chosen, 2)).toEqual([bitOf(s), bitOf(a, 2), bitOf(b, 2)]);
    expect(heard(shifted, 0)).toEqual([bitOf(a, 0), bitOf(s)]);
    expect(operandsOfBit(nodes, sourceBit(nodes, bitOf(a)))).toEqual([]);
  });

  it.each(shapes)('are all that can change it: operator %i', (op, width, widths, aux) => {
    const values = fc.tuple(...widths.map((operandWidth) => knownDigitsOfWidth(operandWidth)));
    const columns = columnsOf(op, width, widths, aux);
    fc.assert(
      fc.property(values, values, fc.nat(width - 1), (first, second, bit) => {
        // An index is mostly outside: bring it near the vector, so that something is read.
        const texts = [first, second].map((list) =>
          list.map((text) => (text.length === 32 ? text.slice(29).padStart(32, '0') : text)),
        );
        const heard = operandsOfBit(columns, { node: widths.length as NodeId, bit });
        const mixed = texts[0].map((text, operand) =>
          [...text]
            .map((digit, index) =>
              isHeard(heard, operand, text.length - 1 - index) ? digit : texts[1][operand][index],
            )
            .join(''),
        );
        const digitOf = (list: readonly string[]) => {
          const value = evaluate(op, width, list.map(bitsOf), aux, {
            resolutions: [],
            caseWildcards: [],
            memories: [],
          });
          return toBinary(value)[width - 1 - bit];
        };
        expect(digitOf(mixed)).toBe(digitOf(texts[0]));
      }),
    );
  });
});

function isHeard(heard: readonly Bit[], operand: number, bit: number): boolean {
  return heard.some((found) => found.node === operand && found.bit === bit);
}

/** One node of the operator after an input for each operand, without the builder's simplifications. */
function columnsOf(op: OpCode, width: number, widths: readonly number[], aux: number) {
  const inputs = widths.length;
  return {
    count: inputs + 1,
    op: Uint8Array.from([...widths.map(() => Op.input), op]),
    width: Uint32Array.from([...widths, width]),
    first: Uint32Array.from([...widths.map(() => 0), 0]),
    arity: Uint32Array.from([...widths.map(() => 0), inputs]),
    aux: Int32Array.from([...widths.map((_, index) => index), aux]),
    place: new Int32Array(inputs + 1),
    pool: Uint32Array.from(widths.map((_, index) => index as NetPieceId)),
  };
}
