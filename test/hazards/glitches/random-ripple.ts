// Small random circuits and an oracle that knows nothing of orders: it tries every whole-number choice of delays and
// looks at what a decode does. Bits toggle or follow a function, clocked by the root or by an earlier bit.

import type { DelayTriple } from '../../../server/src/netlist/netlist';
import { type Circuit, circuit, type Wire } from '../../tools/circuit';

export type Random = (below: number) => number;

/** A linear congruential generator (constants: Numerical Recipes, "quick and dirty", from memory). */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** A function of the bits, both as logic and as arithmetic. Bits beyond those of the state are inputs. */
export type Expression =
  | { readonly kind: 'bit'; readonly bit: number }
  | { readonly kind: 'not'; readonly of: Expression }
  | { readonly kind: 'and' | 'or' | 'xor'; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'mux'; readonly select: Expression; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'equal'; readonly value: number }
  | { readonly kind: 'late'; readonly of: Expression; readonly rise: DelayTriple; readonly fall: DelayTriple };

export interface RandomBit {
  /** Null: the root. */
  readonly clock: number | null;
  readonly edge: 'rising' | 'falling';
  /** Null: toggles. */
  readonly next: Expression | null;
  readonly rise: DelayTriple;
  readonly fall: DelayTriple;
}

export interface RandomCircuit {
  /** How many inputs, free before each edge. */
  readonly inputs: number;
  readonly bits: readonly RandomBit[];
  readonly decode: Expression;
  /** A delay around the decode. */
  readonly last: { readonly rise: DelayTriple; readonly fall: DelayTriple } | null;
}

export interface Shape {
  readonly bits: number;
  readonly longest: number;
  readonly hasLast: 'never' | 'sometimes';
  /** Parts of the decode that take time: one in so many; 0: none. */
  readonly lateOneIn?: number;
  readonly inputs?: number;
  /** Whether bits may clock one another. */
  readonly clocking?: 'mixed' | 'flat';
}

export function randomCircuit(random: Random, shape: Shape): RandomCircuit {
  const { bits: count, longest, hasLast, lateOneIn = 0, inputs = 0, clocking = 'mixed' } = shape;
  const isFlat = clocking === 'flat';
  const bits = Array.from({ length: count }, (_, index): RandomBit => {
    const clock = isFlat || index === 0 || random(3) === 0 ? null : random(index);
    return {
      clock,
      edge: clock === null ? 'falling' : random(3) === 0 ? 'rising' : 'falling',
      next: clock === null && (isFlat || random(3) === 0) ? randomExpression(random, count + inputs, 2) : null,
      rise: randomTriple(random, longest),
      fall: randomTriple(random, longest),
    };
  });
  const isDelayed = hasLast === 'sometimes' && random(2) === 0;
  return {
    inputs,
    bits,
    decode: withLate(random, randomExpression(random, count + inputs, 3), longest, lateOneIn),
    last: isDelayed ? { rise: randomTriple(random, longest), fall: randomTriple(random, longest) } : null,
  };
}

function randomTriple(random: Random, longest: number): DelayTriple {
  const min = random(longest + 1);
  const max = min + random(3);
  return { min, typ: min + random(max - min + 1), max };
}

function randomExpression(random: Random, bits: number, depth: number): Expression {
  const part = () => randomExpression(random, bits, depth - 1);
  const choice = depth === 0 ? 0 : random(7);
  if (choice === 0) return { kind: 'bit', bit: random(bits) };
  if (choice === 1) return { kind: 'not', of: part() };
  if (choice === 2) return { kind: 'equal', value: random(2 ** bits) };
  if (choice === 3) return { kind: 'mux', select: part(), left: part(), right: part() };
  return { kind: (['and', 'or', 'xor'] as const)[choice - 4], left: part(), right: part() };
}

function withLate(random: Random, expression: Expression, longest: number, oneIn: number): Expression {
  if (oneIn === 0) return expression;
  const inner = (part: Expression) => withLate(random, part, longest, oneIn);
  const own = withParts(expression, inner);
  if (random(oneIn) > 0 || own.kind === 'bit') return own;
  return { kind: 'late', of: own, rise: randomTriple(random, longest), fall: randomTriple(random, longest) };
}

function withParts(expression: Expression, inner: (part: Expression) => Expression): Expression {
  switch (expression.kind) {
    case 'bit':
    case 'equal':
      return expression;
    case 'not':
    case 'late':
      return { ...expression, of: inner(expression.of) };
    case 'mux':
      return {
        ...expression,
        select: inner(expression.select),
        left: inner(expression.left),
        right: inner(expression.right),
      };
    default:
      return { ...expression, left: inner(expression.left), right: inner(expression.right) };
  }
}

/** One choice of delays: every triple becomes one of the values it allows. */
export function pinned(
  { inputs, bits, decode, last }: RandomCircuit,
  pick: (triple: DelayTriple) => number,
): RandomCircuit {
  const pin = (triple: DelayTriple): DelayTriple => {
    const value = pick(triple);
    return { min: value, typ: value, max: value };
  };
  const pinParts = (expression: Expression): Expression => {
    const own = withParts(expression, pinParts);
    return own.kind === 'late' ? { ...own, rise: pin(own.rise), fall: pin(own.fall) } : own;
  };
  return {
    inputs,
    bits: bits.map((bit) => ({ ...bit, rise: pin(bit.rise), fall: pin(bit.fall) })),
    decode: pinParts(decode),
    last: last === null ? null : { rise: pin(last.rise), fall: pin(last.fall) },
  };
}

/** The same as a netlist: bits `q[0]` …, decode at the port `y`. */
export function netlistOf({ inputs, bits, decode, last }: RandomCircuit) {
  const c = circuit();
  const clk = c.input('clk');
  const ports = Array.from({ length: inputs }, (_, index) => c.input(`i${index}`));
  const q = c.registers(
    'q',
    { width: bits.length },
    bits.map(({ clock, edge, next, rise, fall }, index) => ({
      low: index,
      width: 1,
      clock: (self: Wire) => (clock === null ? clk : self.bit(clock)),
      edge,
      data: (self: Wire) => (next === null ? c.not(self.bit(index)) : wireOf(c, next, self, ports)),
      initial: '0',
      delay: { rise, fall },
    })),
  );
  const wire = wireOf(c, decode, q, ports);
  c.output('y', last === null ? wire : c.delayed(wire, last));
  return c.build();
}

function wireOf(c: Circuit, expression: Expression, q: Wire, ports: readonly Wire[]): Wire {
  const at = (part: Expression) => wireOf(c, part, q, ports);
  switch (expression.kind) {
    case 'bit':
      return expression.bit < q.width ? q.bit(expression.bit) : ports[expression.bit - q.width];
    case 'not':
      return c.not(at(expression.of));
    case 'late':
      return c.delayed(at(expression.of), expression);
    case 'mux':
      return c.mux(at(expression.select), at(expression.left), at(expression.right));
    case 'equal':
      return c.equal(
        c.concat(...[...ports].reverse(), q),
        c.constant(expression.value.toString(2).padStart(q.width + ports.length, '0')),
      );
    default:
      return c[expression.kind](at(expression.left), at(expression.right));
  }
}

export function decoded(expression: Expression, state: number): 0 | 1 {
  const at = (part: Expression) => decoded(part, state);
  switch (expression.kind) {
    case 'bit':
      return ((state >>> expression.bit) & 1) as 0 | 1;
    case 'not':
      return at(expression.of) === 1 ? 0 : 1;
    case 'late':
      return at(expression.of);
    case 'and':
      return (at(expression.left) & at(expression.right)) as 0 | 1;
    case 'or':
      return (at(expression.left) | at(expression.right)) as 0 | 1;
    case 'xor':
      return (at(expression.left) ^ at(expression.right)) as 0 | 1;
    case 'mux':
      return at(expression.select) === 1 ? at(expression.left) : at(expression.right);
    case 'equal':
      return state === expression.value ? 1 : 0;
  }
}

/** The bits that an expression names, ascending. */
export function bitsOf(expression: Expression, count: number): number[] {
  const found = new Set<number>();
  const visit = (part: Expression): Expression => {
    if (part.kind === 'bit') found.add(part.bit);
    if (part.kind === 'equal') for (let bit = 0; bit < count; bit++) found.add(bit);
    return withParts(part, visit);
  };
  visit(expression);
  return [...found].sort();
}
