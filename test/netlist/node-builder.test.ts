// The node builder: sharing, open nets, and that what it simplifies means what was asked for.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { budget, limitDefaults } from '../../server/src/budget';
import { evaluate } from '../../server/src/netlist/evaluate';
import { type Bits, bitsOf, equalBits, hasUnknown, toBinary } from '../../server/src/netlist/four-state';
import type { NetPieceId, NodeId, SignalId } from '../../server/src/netlist/netlist';
import { createNodeBuilder, type NodeBuilder } from '../../server/src/netlist/node-builder';
import {
  bitNode,
  concatOf,
  extendTo,
  filledOf,
  gateOf,
  muxOf,
  notOf,
  replicateOf,
  selectOf,
  sliceOf,
  testOf,
  truthOf,
  zeroOf,
} from '../../server/src/netlist/node-makers';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import type { Place, UnitOffset } from '../../server/src/text/place';
import { digitsOfWidth } from './arbitraries';
import { settle } from './settle';

const place: Place = { unit: 0, start: 0 as UnitOffset, end: 1 as UnitOffset };
const elsewhere: Place = { unit: 0, start: 5 as UnitOffset, end: 9 as UnitOffset };

function builderWith(...widths: number[]): { builder: NodeBuilder; inputs: NodeId[] } {
  const builder = createNodeBuilder(budget(limitDefaults, 'nodes'));
  return { builder, inputs: widths.map((width, signal) => builder.add(Op.input, width, [], signal, place)) };
}

function shapeOf(builder: NodeBuilder, node: NodeId): { op: number; operands: number[]; aux: number } {
  const { nodes } = builder;
  const first = nodes.first[node];
  return {
    op: nodes.op[node],
    operands: Array.from(nodes.pool.subarray(first, first + nodes.arity[node])),
    aux: nodes.aux[node],
  };
}

describe('sharing', () => {
  it('gives equal questions one node, with the first place', () => {
    const { builder, inputs } = builderWith(4, 4);
    const [a, b] = inputs;
    const sum = builder.add(Op.add, 4, [a, b], 0, place);
    const count = builder.nodes.count;
    expect(builder.add(Op.add, 4, [a, b], 0, elsewhere)).toBe(sum);
    expect(builder.nodes.count).toBe(count);
    expect(builder.places[builder.nodes.place[sum]]).toBe(place);
    const other = builder.add(Op.subtract, 4, [a, b], 0, elsewhere);
    const another = builder.add(Op.subtract, 4, [b, a], 0, elsewhere);
    expect([other, another].map((node) => builder.places[builder.nodes.place[node]])).toEqual([elsewhere, elsewhere]);
  });

  it('tells operands in another order, another operator, width or aux apart', () => {
    const { builder, inputs } = builderWith(4, 4);
    const [a, b] = inputs;
    const made = [
      builder.add(Op.add, 4, [a, b], 0, place),
      builder.add(Op.add, 4, [b, a], 0, place),
      builder.add(Op.subtract, 4, [a, b], 0, place),
      builder.add(Op.input, 4, [], 2, place),
      builder.add(Op.delay, 4, [a], 0, place),
      builder.add(Op.delay, 4, [a], 1, place),
      builder.add(Op.signExtend, 5, [a], 0, place),
      builder.add(Op.signExtend, 6, [a], 0, place),
    ];
    expect(new Set(made).size).toBe(made.length);
  });

  it('shares constants by width and digits, and never a hole', () => {
    const { builder } = builderWith();
    expect(builder.constant(bitsOf('01xz'), place)).toBe(builder.constant(bitsOf('01xz'), elsewhere));
    expect(builder.constant(bitsOf('01xz'), place)).not.toBe(builder.constant(bitsOf('01zx'), place));
    expect(builder.constant(bitsOf('0'), place)).not.toBe(builder.constant(bitsOf('00'), place));
    expect(builder.add(Op.hole, 1, [], -1, place)).not.toBe(builder.add(Op.hole, 1, [], -1, place));
  });

  it('finds each of many nodes again', () => {
    const { builder, inputs } = builderWith(64);
    const ask = () => {
      const found: NodeId[] = [];
      for (let low = 0; low < 64; low++) {
        for (let width = 1; low + width <= 64; width++) found.push(sliceOf(builder, inputs[0], low, width, place));
      }
      return found;
    };
    const first = ask();
    const count = builder.nodes.count;
    expect(ask()).toEqual(first);
    expect(builder.nodes.count).toBe(count);
    expect(new Set(first).size).toBe((64 * 65) / 2);
  });
});

describe('open nets', () => {
  it('may be read before they have a driver', () => {
    const { builder } = builderWith();
    const net = builder.net(0 as NetPieceId, 1, place);
    const inverter = notOf(builder, net, place);
    builder.drive(net, inverter);
    expect(shapeOf(builder, net)).toEqual({ op: Op.net, operands: [inverter], aux: 0 });
    expect(builder.columns().count).toBe(2);
  });

  it('must have one driver of their width at the end', () => {
    const { builder, inputs } = builderWith(2);
    const net = builder.net(0 as NetPieceId, 2, place);
    expect(() => builder.columns()).toThrow('has no driver');
    expect(() => builder.drive(net, zeroOf(builder, 3, place))).toThrow('differ in width');
    builder.drive(net, inputs[0]);
    expect(() => builder.drive(net, inputs[0])).toThrow('no net without driver');
  });

  it('are never one node, whatever drives them', () => {
    const { builder, inputs } = builderWith(1);
    const nets = [0, 1].map((piece) => builder.net(piece as NetPieceId, 1, place));
    for (const net of nets) builder.drive(net, inputs[0]);
    expect(nets[0]).not.toBe(nets[1]);
  });
});

describe('what is held', () => {
  it('the rules of widths', () => {
    const { builder, inputs } = builderWith(4, 3);
    const [four, three] = inputs;
    expect(() => builder.add(Op.and, 4, [four, three], 0, place)).toThrow('and of width 4');
    expect(() => sliceOf(builder, four, 2, 3, place)).toThrow('slice');
    expect(() => builder.add(Op.mux, 4, [three, four, four], 0, place)).toThrow('mux');
    expect(() => builder.add(Op.concat, 8, [four, three], 0, place)).toThrow('concat');
    expect(() => builder.add(Op.readAt, 1, [four, three], 0, place)).toThrow('readAt');
    expect(() => builder.add(Op.select, 4, [three, four, four, four], 0, place)).toThrow('select');
  });

  it('the budget, operands of enormous nodes included', () => {
    const limits = { ...limitDefaults, nodes: 10 };
    const small = createNodeBuilder(budget(limits, 'nodes'));
    for (let signal = 0; signal < 10; signal++) small.add(Op.input, 1, [], signal, place);
    expect(small.exceeded).toBe(false);
    small.add(Op.input, 1, [], 10, place);
    expect(small.exceeded).toBe(true);
    const large = createNodeBuilder(budget(limits, 'nodes'));
    const input = large.add(Op.input, 1, [], 0, place);
    large.add(Op.and, 1, new Array<NodeId>(100).fill(input), 0, place);
    expect(large.exceeded).toBe(true);
  });
});

describe('simplification', () => {
  it('looks through slices and concats', () => {
    const { builder, inputs } = builderWith(8, 4);
    const [a, b] = inputs;
    expect(sliceOf(builder, a, 0, 8, place)).toBe(a);
    const inner = sliceOf(builder, a, 2, 5, place);
    expect(sliceOf(builder, inner, 1, 2, place)).toBe(sliceOf(builder, a, 3, 2, place));
    const joined = concatOf(builder, [a, b], place);
    expect(sliceOf(builder, joined, 4, 8, place)).toBe(a);
    expect(sliceOf(builder, joined, 0, 4, place)).toBe(b);
    expect(bitNode(builder, { node: joined, bit: 5 }, place)).toBe(sliceOf(builder, a, 1, 1, place));
    expect(concatOf(builder, [a], place)).toBe(a);
  });

  it('puts what was cut apart together again', () => {
    const { builder, inputs } = builderWith(8);
    const bits = Array.from({ length: 8 }, (_, bit) => sliceOf(builder, inputs[0], 7 - bit, 1, place));
    expect(concatOf(builder, bits, place)).toBe(inputs[0]);
    const count = builder.nodes.count;
    const middle = concatOf(builder, bits.slice(2, 5), place);
    expect(builder.nodes.count).toBe(count + 1);
    expect(middle).toBe(sliceOf(builder, inputs[0], 3, 3, place));
    const nested = concatOf(builder, [concatOf(builder, [bits[0], bits[2]], place), bits[3]], place);
    expect(shapeOf(builder, nested).operands).toEqual([bits[0], sliceOf(builder, inputs[0], 4, 2, place)]);
  });

  it('extends by constants and joins neighboring constants', () => {
    const { builder, inputs } = builderWith(4);
    expect(extendTo(builder, inputs[0], 4, 'zero', place)).toBe(inputs[0]);
    const wide = extendTo(builder, extendTo(builder, inputs[0], 6, 'zero', place), 9, 'zero', place);
    expect(shapeOf(builder, wide).operands).toEqual([zeroOf(builder, 5, place), inputs[0]]);
    expect(extendTo(builder, inputs[0], 2, 'sign', place)).toBe(sliceOf(builder, inputs[0], 0, 2, place));
  });

  it('folds operators on constants', () => {
    const { builder } = builderWith();
    const constant = (text: string) => builder.constant(bitsOf(text), place);
    expect(builder.add(Op.add, 4, [constant('0011'), constant('0101')], 0, place)).toBe(constant('1000'));
    expect(replicateOf(builder, 3, constant('x1'), place)).toBe(constant('x1x1x1'));
    expect(filledOf(builder, 'z', 3, place)).toBe(constant('zzz'));
    expect(truthOf(builder, constant('0x1'), place)).toBe(constant('1'));
  });

  it('makes choices already made', () => {
    const { builder, inputs } = builderWith(4, 4, 2, 1);
    const [a, b, selector, bit] = inputs;
    const constant = (text: string) => builder.constant(bitsOf(text), place);
    expect(muxOf(builder, constant('1'), a, b, place)).toBe(a);
    expect(muxOf(builder, constant('0'), a, b, place)).toBe(b);
    expect(muxOf(builder, bit, a, a, place)).toBe(a);
    expect(builder.nodes.op[muxOf(builder, constant('x'), a, b, place)]).toBe(Op.mux);
    const arms = [
      { label: constant('00'), value: a },
      { label: constant('01'), value: b },
    ];
    expect(selectOf(builder, constant('01'), arms, a, -1, place)).toBe(b);
    expect(selectOf(builder, constant('11'), arms, a, -1, place)).toBe(a);
    expect(selectOf(builder, selector, [], b, -1, place)).toBe(b);
    expect(selectOf(builder, selector, [arms[0]], a, -1, place)).toBe(a);
    const wildcards = builder.addWildcards([bitsOf('01'), bitsOf('00')]);
    expect(selectOf(builder, constant('01'), arms, a, wildcards, place)).toBe(a);
  });

  it('leaves every gate that the text wrote', () => {
    const { builder, inputs } = builderWith(1, 1);
    const [a, b] = inputs;
    const one = builder.constant(bitsOf('1'), place);
    const kept = [
      gateOf(builder, Op.and, [a, one], place),
      gateOf(builder, Op.and, [a, a], place),
      gateOf(builder, Op.or, [gateOf(builder, Op.and, [a, b], place), b], place),
      notOf(builder, notOf(builder, a, place), place),
      gateOf(builder, Op.buf, [a], place),
      testOf(builder, Op.reduceOr, [a], place),
      muxOf(builder, a, one, builder.constant(bitsOf('0'), place), place),
    ];
    const ops = kept.map((node) => builder.nodes.op[node]);
    expect(ops).toEqual([Op.and, Op.and, Op.or, Op.not, Op.buf, Op.reduceOr, Op.mux]);
  });

  it('leaves wired nets and delays, constant or not', () => {
    const { builder } = builderWith();
    const one = builder.constant(bitsOf('1'), place);
    const resolution = builder.addResolution('tri0', 0 as SignalId);
    expect(builder.nodes.op[builder.add(Op.resolve, 1, [one, one], resolution, place)]).toBe(Op.resolve);
    expect(builder.nodes.op[builder.add(Op.delay, 1, [one], 0, place)]).toBe(Op.delay);
  });
});

/** A random question to the builder: an operator on values made before, by their position from the last. */
interface Question {
  readonly kind: number;
  readonly picks: readonly number[];
  readonly number: number;
  readonly digits: string;
}

/** A node with the value that the questions asked for, computed beside the builder. */
interface Answer {
  readonly node: NodeId;
  readonly value: Bits;
}

describe('a simplified node means what was asked for', () => {
  const questions = fc.array(
    fc.record({
      kind: fc.nat(11),
      picks: fc.array(fc.nat(8), { minLength: 3, maxLength: 3 }),
      number: fc.nat(200),
      digits: digitsOfWidth(4),
    }),
    { minLength: 1, maxLength: 40 },
  );
  const sources = fc.tuple(digitsOfWidth(4), digitsOfWidth(4), digitsOfWidth(1), digitsOfWidth(33));

  it('for random questions', () => {
    fc.assert(
      fc.property(questions, sources, (list, texts) => {
        const { builder, inputs } = builderWith(...texts.map((text) => text.length));
        const values = texts.map(bitsOf);
        const answers: Answer[] = inputs.map((node, index) => ({ node, value: values[index] }));
        for (const question of list) answers.push(ask(builder, answers, question));
        const nodes = builder.columns();
        const settled = settle(nodes, builder.constants, builder, (node) => values[nodes.aux[node]]);
        for (const { node, value } of answers) expectSame(settled[node], value);
      }),
      { numRuns: 400 },
    );
  });
});

function ask(builder: NodeBuilder, answers: readonly Answer[], { kind, picks, number, digits }: Question): Answer {
  const pick = (index: number) => answers[answers.length - 1 - (picks[index] % answers.length)];
  const widthOf = ({ value }: Answer) => value.width;
  const made = (op: OpCode, width: number, operands: readonly Answer[], aux = 0): Answer => ({
    node: builder.add(
      op,
      width,
      operands.map(({ node }) => node),
      aux,
      place,
    ),
    value: evaluate(
      op,
      width,
      operands.map(({ value }) => value),
      aux,
      builder,
    ),
  });
  const [first, second] = [pick(0), pick(1)];
  const bit = (answer: Answer) => made(Op.slice, 1, [answer], number % widthOf(answer));
  /** The second pick, brought to the width of the first. */
  const alike = () =>
    widthOf(second) >= widthOf(first)
      ? made(Op.slice, widthOf(first), [second], number % (widthOf(second) - widthOf(first) + 1))
      : made(number % 2 === 0 ? Op.zeroExtend : Op.signExtend, widthOf(first), [second]);
  switch (kind) {
    case 0:
      return { node: builder.constant(bitsOf(digits), place), value: bitsOf(digits) };
    case 1:
    case 2: {
      const low = number % widthOf(first);
      return made(Op.slice, 1 + (number % (widthOf(first) - low)), [first], low);
    }
    case 3:
    case 4: {
      const parts = [first, second, pick(2)];
      return made(
        Op.concat,
        parts.reduce((sum, part) => sum + widthOf(part), 0),
        parts,
      );
    }
    case 5:
      return made(Op.zeroExtend, widthOf(first) + (number % 40), [first]);
    case 6:
      return made(Op.signExtend, widthOf(first) + (number % 40), [first]);
    case 7:
      return made(Op.mux, widthOf(first), [bit(pick(2)), first, alike()]);
    case 8: {
      const labels = ['00', '01', '1x'].map((label) =>
        ask(builder, answers, { kind: 0, picks, number, digits: label }),
      );
      const selector = made(Op.concat, 2, [bit(second), bit(pick(2))]);
      const aux = number % 2 === 0 ? -1 : builder.addWildcards([bitsOf('00'), bitsOf('10'), bitsOf('01')]);
      const [low, high, any] = labels;
      return made(Op.select, widthOf(first), [selector, low, first, high, alike(), any, first, first], aux);
    }
    case 9:
      return made(Op.and, widthOf(first), [first, alike()]);
    case 10:
      return made(Op.xor, widthOf(first), [first, alike()]);
    default:
      return made(Op.add, widthOf(first), [first, alike()]);
  }
}

/** Equal, but for the stated liberty of equal arms: a z may stay where the table of the standard says x. */
function expectSame(simplified: Bits, asked: Bits): void {
  const [left, right] = [toBinary(simplified), toBinary(asked)];
  if (!hasUnknown(asked)) expect(equalBits(simplified, asked)).toBe(true);
  expect([...left].map((digit, index) => (digit === 'z' && right[index] === 'x' ? 'x' : digit)).join('')).toBe(right);
}
