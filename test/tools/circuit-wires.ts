// Operators on wires, for circuits by hand.

import { type Bits, bitsOf } from '../../server/src/netlist/four-state';
import type { Bit, NodeId } from '../../server/src/netlist/netlist';
import type { NodeBuilder } from '../../server/src/netlist/node-builder';
import {
  concatOf,
  extendTo,
  type GateOp,
  gateOf,
  muxOf,
  selectOf,
  sliceOf,
} from '../../server/src/netlist/node-makers';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import type { Places } from './circuit-places';
import { nodeOf, type Wire } from './circuit-types';

/** What makes a wire of wires. */
export interface Wires {
  constant(digits: string): Wire;
  concat(...parts: Wire[]): Wire;
  zeroExtend(wire: Wire, width: number): Wire;
  signExtend(wire: Wire, width: number): Wire;
  not(wire: Wire): Wire;
  buf(wire: Wire): Wire;
  and(...wires: Wire[]): Wire;
  nand(...wires: Wire[]): Wire;
  or(...wires: Wire[]): Wire;
  nor(...wires: Wire[]): Wire;
  xor(...wires: Wire[]): Wire;
  xnor(...wires: Wire[]): Wire;
  tristate(data: Wire, enable: Wire): Wire;
  add(left: Wire, right: Wire): Wire;
  subtract(left: Wire, right: Wire): Wire;
  /** One more, in the same width. */
  increment(wire: Wire): Wire;
  equal(left: Wire, right: Wire): Wire;
  notEqual(left: Wire, right: Wire): Wire;
  less(left: Wire, right: Wire): Wire;
  reduceAnd(wire: Wire): Wire;
  reduceOr(wire: Wire): Wire;
  reduceXor(wire: Wire): Wire;
  mux(select: Wire, whenOne: Wire, whenZero: Wire): Wire;
  /** Arms in order, labels as digits, `?` a wildcard. */
  select(selector: Wire, arms: readonly (readonly [label: string, value: Wire])[], otherwise: Wire): Wire;
  /** Any operator, by its number. */
  operator(op: OpCode, width: number, operands: readonly Wire[], aux?: number): Wire;
}

export function createWires(builder: NodeBuilder, places: Places): Wires {
  const wire = (node: NodeId) => wireOf(builder, places, node);
  const gate = (op: GateOp, wires: readonly Wire[]) => wire(gateOf(builder, op, wires.map(nodeOf), places.current));
  const operator = (op: OpCode, width: number, operands: readonly Wire[], aux = 0) =>
    wire(builder.add(op, width, operands.map(nodeOf), aux, places.current));
  const constant = (digits: string) => wire(builder.constant(bitsOf(digits), places.current));

  return {
    constant,
    concat: (...parts) => wire(concatOf(builder, parts.map(nodeOf), places.current)),
    zeroExtend: ({ node }, width) => wire(extendTo(builder, node, width, 'zero', places.current)),
    signExtend: ({ node }, width) => wire(extendTo(builder, node, width, 'sign', places.current)),
    not: (only) => gate(Op.not, [only]),
    buf: (only) => gate(Op.buf, [only]),
    and: (...wires) => gate(Op.and, wires),
    nand: (...wires) => gate(Op.nand, wires),
    or: (...wires) => gate(Op.or, wires),
    nor: (...wires) => gate(Op.nor, wires),
    xor: (...wires) => gate(Op.xor, wires),
    xnor: (...wires) => gate(Op.xnor, wires),
    tristate: (data, enable) => operator(Op.tristate, data.width, [data, enable]),
    add: (left, right) => operator(Op.add, left.width, [left, right]),
    subtract: (left, right) => operator(Op.subtract, left.width, [left, right]),
    increment: (only) => operator(Op.add, only.width, [only, constant(`${'0'.repeat(only.width - 1)}1`)]),
    equal: (left, right) => operator(Op.equal, 1, [left, right]),
    notEqual: (left, right) => operator(Op.notEqual, 1, [left, right]),
    less: (left, right) => operator(Op.lessUnsigned, 1, [left, right]),
    reduceAnd: (only) => operator(Op.reduceAnd, 1, [only]),
    reduceOr: (only) => operator(Op.reduceOr, 1, [only]),
    reduceXor: (only) => operator(Op.reduceXor, 1, [only]),
    mux: (select, whenOne, whenZero) => wire(muxOf(builder, select.node, whenOne.node, whenZero.node, places.current)),
    select(selector, arms, otherwise) {
      const wildcards = arms.some(([label]) => label.includes('?')) ? builder.addWildcards(arms.map(wildBits)) : -1;
      const pairs = arms.map(([label, { node }]) => ({ label: constant(label.replace(/\?/g, '0')).node, value: node }));
      return wire(selectOf(builder, selector.node, pairs, otherwise.node, wildcards, places.current));
    },
    operator,
  };
}

export function wireOf(builder: NodeBuilder, places: Places, node: NodeId): Wire {
  const slice = (low: number, width: number) =>
    wireOf(builder, places, sliceOf(builder, node, low, width, places.current));
  return {
    node,
    width: builder.nodes.width[node],
    bit: (index) => slice(index, 1),
    bits: (high, low) => slice(low, high - low + 1),
  };
}

/** The bit that a 1-bit wire is; a bit of a slice is that of the node sliced, as the elaborator gives it. */
export function bitOfWire({ nodes }: NodeBuilder, { node, width }: Wire): Bit {
  if (width !== 1) throw new Error(`a bit was asked for, ${width} bits were given`);
  if (nodes.op[node] !== Op.slice) return { node, bit: 0 };
  return { node: nodes.pool[nodes.first[node]] as NodeId, bit: nodes.aux[node] };
}

function wildBits([label]: readonly [string, Wire]): Bits {
  return bitsOf([...label].map((digit) => (digit === '?' ? '1' : '0')).join(''));
}
