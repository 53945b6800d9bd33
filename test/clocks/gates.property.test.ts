// No false comfort: whatever expression gates a clock, a verdict of sound means that no control can move the output.
// The truth table of the expression is the judge; it knows nothing of how verdicts are found.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { EdgeKind } from '../../server/src/netlist/netlist';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { flop, toggle } from './parts';

type Leaf = 'clk' | 'r0' | 'r1' | 'f0' | 'f1';
type Expression =
  | { readonly kind: Leaf }
  | { readonly kind: 'not'; readonly operands: readonly [Expression] }
  | { readonly kind: 'and' | 'or' | 'nand' | 'nor' | 'xor'; readonly operands: readonly [Expression, Expression] }
  | { readonly kind: 'mux'; readonly operands: readonly [Expression, Expression, Expression] };

const leaves: readonly Leaf[] = ['clk', 'clk', 'r0', 'r1', 'f0', 'f1'];

const { expression } = fc.letrec<{ expression: Expression }>((tie) => ({
  expression: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    fc.constantFrom(...leaves).map((kind): Expression => ({ kind })),
    fc.tuple(tie('expression')).map((operands): Expression => ({ kind: 'not', operands })),
    fc
      .tuple(fc.constantFrom('and', 'or', 'nand', 'nor', 'xor'), fc.tuple(tie('expression'), tie('expression')))
      .map(([kind, operands]): Expression => ({ kind, operands })),
    fc
      .tuple(tie('expression'), tie('expression'), tie('expression'))
      .map((operands): Expression => ({ kind: 'mux', operands })),
  ),
}));

type Levels = Readonly<Record<Leaf, boolean>>;

function levelOf(made: Expression, levels: Levels): boolean {
  if (!('operands' in made)) return levels[made.kind];
  const [a, b, c] = made.operands.map((operand) => levelOf(operand, levels));
  switch (made.kind) {
    case 'not':
      return !a;
    case 'and':
      return a && b;
    case 'or':
      return a || b;
    case 'nand':
      return !(a && b);
    case 'nor':
      return !(a || b);
    case 'xor':
      return a !== b;
    case 'mux':
      return a ? b : c;
  }
}

function wireOf(c: Circuit, made: Expression, wires: Readonly<Record<Leaf, Wire>>): Wire {
  if (!('operands' in made)) return wires[made.kind];
  const operands = made.operands.map((operand) => wireOf(c, operand, wires));
  if (made.kind === 'not') return c.not(operands[0]);
  if (made.kind === 'mux') return c.mux(operands[0], operands[1], operands[2]);
  return c[made.kind](...operands);
}

const controls = { r0: 'rising', r1: 'rising', f0: 'falling', f1: 'falling' } as const;

function networkOf(made: Expression) {
  const c = circuit();
  const clk = c.input('clk');
  const sent = (name: string, edge: EdgeKind) => flop(c, name, edge, clk, c.input(`d_${name}`));
  const [r0, r1] = ['r0', 'r1'].map((name) => sent(name, 'rising'));
  const [f0, f1] = ['f0', 'f1'].map((name) => sent(name, 'falling'));
  toggle(c, 'q', 'rising', c.net('g', wireOf(c, made, { clk, r0, r1, f0, f1 })));
  return describeClocks(c.build());
}

/** Whether the level of a control shows at the output just after the clock edge that launches it. */
function shows(made: Expression, control: keyof typeof controls): boolean {
  const clk = controls[control] === 'rising';
  return Array.from({ length: 32 }, (_, index) => index).some((index) => {
    const others = { clk, r0: (index & 1) > 0, r1: (index & 2) > 0, f0: (index & 4) > 0, f1: (index & 8) > 0 };
    return levelOf(made, { ...others, [control]: true }) !== levelOf(made, { ...others, [control]: false });
  });
}

it('a sound gate shows no change of its controls', () => {
  fc.assert(
    fc.property(expression, (made) => {
      const clock = networkOf(made).network.clocks.find(({ name }) => name === 'g');
      if (clock?.gate?.verdict !== 'sound') return;
      const seen = (['r0', 'r1', 'f0', 'f1'] as const).filter((control) => shows(made, control));
      expect(seen).toEqual([]);
    }),
    { numRuns: 200, seed: 20_261 },
  );
});

it('finds both sound and unsound gates among such expressions', () => {
  const verdicts = new Set(
    fc.sample(expression, { numRuns: 150, seed: 7 }).map((made) => {
      const clock = networkOf(made).network.clocks.find(({ name }) => name === 'g');
      return clock?.gate?.verdict ?? clock?.kind ?? 'none';
    }),
  );
  expect([...verdicts]).toEqual(expect.arrayContaining(['sound', 'unsound', 'derived']));
});
