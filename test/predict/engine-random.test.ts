// The timed engine against a plain evaluator without delays, on random circuits; and against itself under another
// numbering of nodes. The evaluator below knows the circuit as expressions, never as a netlist.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Netlist } from '../../server/src/netlist/netlist';
import { type Circuit, circuit, type Wire } from '../tools/circuit';
import { permuteNodes } from './permuted';
import { plainSet, runTimed } from './timed';

const width = 3;
const mask = 2 ** width - 1;

/** A value of `width` bits. */
type Expression =
  | { readonly kind: 'register'; readonly index: number }
  | { readonly kind: 'constant'; readonly value: number }
  | { readonly kind: 'not'; readonly of: Expression }
  | {
      readonly kind: 'and' | 'or' | 'xor' | 'add' | 'subtract' | 'equal';
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'mux'; readonly select: Expression; readonly left: Expression; readonly right: Expression };

interface Model {
  readonly registers: readonly {
    readonly data: Expression;
    readonly edge: 'rising' | 'falling';
    readonly initial: number;
    /** Clocked by bit 0 of an earlier register, or by the root. */
    readonly source: number | null;
  }[];
  readonly output: Expression;
}

const twoSided = ['and', 'or', 'xor', 'add', 'subtract', 'equal'] as const;

function expressions(registerCount: number): fc.Arbitrary<Expression> {
  return fc.letrec<{ tree: Expression }>((tie) => ({
    tree: fc.oneof(
      { maxDepth: 4 },
      fc.record({ kind: fc.constant('register' as const), index: fc.nat(registerCount - 1) }),
      fc.record({ kind: fc.constant('constant' as const), value: fc.nat(mask) }),
      fc.record({ kind: fc.constant('not' as const), of: tie('tree') }),
      fc.record({ kind: fc.constantFrom(...twoSided), left: tie('tree'), right: tie('tree') }),
      fc.record({ kind: fc.constant('mux' as const), select: tie('tree'), left: tie('tree'), right: tie('tree') }),
    ),
  })).tree;
}

const edges = fc.constantFrom('rising' as const, 'falling' as const);

/** `clocking`: all on the root, or any register on an earlier one. */
function models(clocking: 'root' | 'any'): fc.Arbitrary<Model> {
  return fc.integer({ min: 1, max: 4 }).chain((count) =>
    fc.record({
      registers: fc.tuple(
        ...Array.from({ length: count }, (_, index) =>
          fc.record({
            data: expressions(count),
            edge: edges,
            initial: fc.nat(mask),
            source: clocking === 'root' || index === 0 ? fc.constant(null) : fc.option(fc.nat(index - 1)),
          }),
        ),
      ),
      output: expressions(count),
    }),
  );
}

function evaluate(expression: Expression, state: readonly number[]): number {
  switch (expression.kind) {
    case 'register':
      return state[expression.index];
    case 'constant':
      return expression.value;
    case 'not':
      return ~evaluate(expression.of, state) & mask;
    case 'mux':
      return evaluate((evaluate(expression.select, state) & 1) === 1 ? expression.left : expression.right, state);
    default: {
      const left = evaluate(expression.left, state);
      const right = evaluate(expression.right, state);
      return applyTwoSided[expression.kind](left, right) & mask;
    }
  }
}

const applyTwoSided: Readonly<Record<(typeof twoSided)[number], (left: number, right: number) => number>> = {
  and: (left, right) => left & right,
  or: (left, right) => left | right,
  xor: (left, right) => left ^ right,
  add: (left, right) => left + right,
  subtract: (left, right) => left - right,
  equal: (left, right) => (left === right ? 1 : 0),
};

/** One edge of the root: registers on it sample the old state, then those clocked by what changed, and so on. */
function step(model: Model, before: readonly number[], level: 0 | 1): number[] {
  const state = [...before];
  let pins = model.registers.map(({ source }) => (source === null ? level : null));
  while (pins.some((pin) => pin !== null)) {
    const old = [...state];
    model.registers.forEach(({ data, edge }, index) => {
      if (pins[index] === (edge === 'rising' ? 1 : 0)) state[index] = evaluate(data, before);
    });
    pins = model.registers.map(({ source }) => {
      if (source === null || ((old[source] ^ state[source]) & 1) === 0) return null;
      return (state[source] & 1) as 0 | 1;
    });
  }
  return state;
}

function build(model: Model): Netlist {
  const c = circuit();
  const clk = c.input('clk');
  const wires: Wire[] = [];
  model.registers.forEach(({ data, edge, initial, source }, index) => {
    const clock = source === null ? clk : wires[source].bit(0);
    const digits = initial.toString(2).padStart(width, '0');
    wires.push(c.register(`r${index}`, { width, clock, edge, initial: digits, data: () => wireOf(c, data, wires) }));
  });
  c.output('y', wireOf(c, model.output, wires));
  return c.build();
}

function wireOf(c: Circuit, expression: Expression, wires: readonly Wire[]): Wire {
  const make = (inner: Expression) => wireOf(c, inner, wires);
  switch (expression.kind) {
    case 'register':
      return wires[expression.index];
    case 'constant':
      return c.constant(expression.value.toString(2).padStart(width, '0'));
    case 'not':
      return c.not(make(expression.of));
    case 'mux':
      return c.mux(make(expression.select).bit(0), make(expression.left), make(expression.right));
    case 'equal':
      return c.zeroExtend(c.equal(make(expression.left), make(expression.right)), width);
    default:
      return c[expression.kind](make(expression.left), make(expression.right));
  }
}

const names = (model: Model) => ['y', ...model.registers.map((_, index) => `r${index}`)];
const value = (digits: string) => (/^[01]*$/.test(digits) ? Number.parseInt(digits, 2) : digits);

/** Rises at 500, 1500, …, falls at 1000, 2000, …, in ns; readings are taken just before each edge. */
const clock = { clk: { period: 1000 } };
const edgeCount = 12;

function expectSettled(model: Model, run: ReturnType<typeof runTimed>): void {
  let state: readonly number[] = model.registers.map(({ initial }) => initial);
  for (let edge = 1; edge <= edgeCount; edge++) {
    expect(model.registers.map((_, index) => value(run.before(`r${index}`, 500 * edge)))).toEqual(state);
    expect(value(run.before('y', 500 * edge))).toBe(evaluate(model.output, state));
    state = step(model, state, edge % 2 === 1 ? 1 : 0);
  }
}

describe('settled values', () => {
  it('agree for one clock and any delays of gates and registers, as long as the period is long enough', () => {
    fc.assert(
      fc.property(
        models('root'),
        fc.integer({ min: 0, max: 5 }),
        fc.integer({ min: 0, max: 5 }),
        (model, register, gate) => {
          const delays = plainSet('any', { register, gate });
          const run = runTimed(build(model), { clocks: clock, delays, until: 500 * (edgeCount + 1) });
          expect(run.doubts).toEqual([]);
          expectSettled(model, run);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('agree for registers clocked by registers without delay, wherever there is no race', () => {
    let compared = 0;
    fc.assert(
      fc.property(models('any'), (model) => {
        const run = runTimed(build(model), { clocks: clock, delays: 'ideal', until: 500 * (edgeCount + 1) });
        if (run.doubts.length > 0) return;
        compared++;
        expectSettled(model, run);
      }),
      { numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(50);
  });
});

describe('the numbering of nodes', () => {
  it('changes no wave and no doubt', () => {
    const sets = [plainSet('gates', { register: 3, gate: 1 }), 'ideal', 'unit'] as const;
    fc.assert(
      fc.property(models('any'), fc.constantFrom(...sets), fc.infiniteStream(fc.nat()), (model, delays, keys) => {
        const netlist = build(model);
        const order = Array.from({ length: netlist.nodes.count }, (_, node) => ({
          node,
          key: keys.next().value as number,
        }));
        order.sort((left, right) => left.key - right.key);
        const options = { clocks: clock, delays, until: 500 * (edgeCount + 1) };
        const first = runTimed(netlist, options);
        const second = runTimed(
          permuteNodes(
            netlist,
            order.map(({ node }) => node),
          ),
          options,
        );
        const bits = names(model).flatMap((name) => Array.from({ length: width }, (_, bit) => `${name}[${bit}]`));
        expect(bits.map((bit) => second.wave(bit))).toEqual(bits.map((bit) => first.wave(bit)));
        expect([...second.doubts].sort()).toEqual([...first.doubts].sort());
      }),
      { numRuns: 150 },
    );
  });
});
