// Random circuits without races for tests of the settled stepper: registers on both edges of one clock with an
// asynchronous clear, random logic of up to 70 bits between them, and toggles that hang on their bits in a ripple.

import fc from 'fast-check';
import type { Netlist, NodeColumns, NodeId } from '../../server/src/netlist/netlist';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import { circuit, type Circuit, type Wire } from '../tools/circuit';

export interface Recipe {
  readonly registers: readonly {
    readonly width: number;
    readonly edge: 'rising' | 'falling';
    readonly seed: number;
    readonly clears: boolean;
  }[];
  readonly steps: readonly {
    readonly kind: number;
    readonly operands: readonly [number, number, number];
    readonly width: number;
  }[];
  readonly toggles: readonly { readonly on: number; readonly edge: 'rising' | 'falling' }[];
  readonly digits: string;
}

const edges = fc.constantFrom('rising' as const, 'falling' as const);
const index = fc.nat(1000);

export const recipes: fc.Arbitrary<Recipe> = fc.record({
  registers: fc.array(
    fc.record({ width: fc.constantFrom(1, 2, 5, 31, 32, 33, 70), edge: edges, seed: index, clears: fc.boolean() }),
    { minLength: 1, maxLength: 4 },
  ),
  steps: fc.array(
    fc.record({ kind: index, operands: fc.tuple(index, index, index), width: fc.constantFrom(1, 1, 3, 8, 32, 40) }),
    { maxLength: 25 },
  ),
  toggles: fc.array(fc.record({ on: index, edge: edges }), { maxLength: 4 }),
  digits: fc.string({ unit: fc.constantFrom('0', '1', '0', '1', 'x'), minLength: 70, maxLength: 70 }),
});

/** Inputs: clk, clear, a (8 bits), b (40 bits). */
export function buildCircuit({ registers, steps, toggles, digits }: Recipe): Netlist {
  const c = circuit();
  const clk = c.input('clk');
  const clear = c.input('clear');
  const pool: Wire[] = [c.input('a', { width: 8 }), c.input('b', { width: 40 })];
  const pick = (number: number): Wire => pool[number % pool.length];
  const outputs = registers.map(({ width, edge, seed, clears }, number) =>
    c.register(`r${number}`, {
      width,
      clock: clk,
      edge,
      initial: digits.slice(0, width),
      data: () => resized(c, pick(seed), width),
      asynchronous: clears ? [{ control: clear, active: 'high', value: '0'.repeat(width) }] : [],
    }),
  );
  pool.push(...outputs);
  const clockable = outputs.map((output) => output.bit(0));
  toggles.forEach(({ on, edge }, number) => {
    const clock = clockable[on % clockable.length];
    const output = c.register(`t${number}`, { clock, edge, data: (self: Wire) => c.not(self), initial: '0' });
    clockable.push(output);
    pool.push(output);
  });
  for (const { kind, operands, width } of steps) {
    const [one, two, three] = operands.map((number) => resized(c, pick(number), width));
    pool.push(makers[kind % makers.length](c, one, two, three));
  }
  pool.forEach((wire, number) => {
    c.net(`n${number}`, wire);
  });
  return c.build();
}

/** Cut or widened, as the elaborator would. */
function resized(c: Circuit, wire: Wire, width: number): Wire {
  if (wire.width === width) return wire;
  return wire.width > width ? wire.bits(width - 1, 0) : c.zeroExtend(wire, width);
}

type Maker = (c: Circuit, one: Wire, two: Wire, three: Wire) => Wire;

const arithmetic =
  (op: OpCode): Maker =>
  (c, one, two) =>
    c.operator(op, one.width, [one, two]);
const test =
  (op: OpCode): Maker =>
  (c, one, two) =>
    c.operator(op, 1, [one, two]);

const makers: readonly Maker[] = [
  (c, one, two) => c.and(one, two),
  (c, one, two, three) => c.nand(one, two, three),
  (c, one, two) => c.or(one, two),
  (c, one, two, three) => c.nor(one, two, three),
  (c, one, two) => c.xor(one, two),
  (c, one, two) => c.xnor(one, two),
  (c, one) => c.not(one),
  (c, one) => c.buf(one),
  (c, one, two, three) => c.mux(one.bit(0), two, three),
  (c, one, two, three) =>
    c.select(
      resized(c, one, 2),
      [
        ['00', two],
        ['01', three],
        ['1?', one],
      ],
      two,
    ),
  (c, one, two, three) =>
    c.select(
      resized(c, one, 2),
      [
        ['00', two],
        ['01', three],
      ],
      one,
    ),
  (c, one, two) => c.concat(one, two),
  (c, one) => c.reduceAnd(one),
  (c, one) => c.reduceOr(one),
  (c, one) => c.reduceXor(one),
  (c, one, two) => c.tristate(one, two.bit(0)),
  (c, one) => c.signExtend(one, one.width + 3),
  (c, one) => c.operator(Op.negate, one.width, [one]),
  ...[Op.add, Op.subtract, Op.multiply, Op.divideUnsigned, Op.moduloSigned].map(arithmetic),
  ...[Op.shiftLeft, Op.shiftRight, Op.shiftRightSigned].map(arithmetic),
  ...[Op.equal, Op.notEqual, Op.lessUnsigned, Op.lessSigned, Op.lessEqualUnsigned, Op.lessEqualSigned].map(test),
];

/** The same netlist with its nodes numbered in another order: node n becomes `order[n]`. */
export function renumbered(netlist: Netlist, order: readonly number[]): Netlist {
  const to = (node: NodeId): NodeId => order[node] as NodeId;
  const bit = <Located extends { readonly node: NodeId }>(located: Located): Located => ({
    ...located,
    node: to(located.node),
  });
  return {
    ...netlist,
    nodes: renumberedColumns(netlist.nodes, order),
    signals: netlist.signals.map(bit),
    pieces: netlist.pieces.map(bit),
    registers: netlist.registers.map((register) => ({
      ...bit(register),
      clock: bit(register.clock),
      data: to(register.data),
      asynchronous: register.asynchronous.map((use) => ({ ...use, control: bit(use.control), value: to(use.value) })),
    })),
  };
}

function renumberedColumns(nodes: NodeColumns, order: readonly number[]): NodeColumns {
  const from = new Array<number>(nodes.count);
  order.forEach((target, node) => {
    from[target] = node;
  });
  const moved = <Column extends Uint8Array | Uint32Array | Int32Array>(column: Column): Column =>
    column.map((_, node) => column[from[node]]) as Column;
  return {
    count: nodes.count,
    op: moved(nodes.op),
    width: moved(nodes.width),
    first: moved(nodes.first),
    arity: moved(nodes.arity),
    aux: moved(nodes.aux),
    place: moved(nodes.place),
    pool: nodes.pool.map((node) => order[node]),
  };
}
