// The root edge of a register, against a small machine that steps the circuit from one root edge to the next and writes
// down when each register was clocked. Clocks of inverters, decodes and exclusive ors; gates with controls are left
// out, since an unsound one clocks at other times too, which is what its verdict says.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { EdgeKind } from '../../server/src/netlist/netlist';
import { circuit, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';

/** Operand 0 is the root, operand n register n. */
interface Clocking {
  readonly kind: 'plain' | 'not' | 'and' | 'or' | 'xor';
  readonly operands: readonly [number, number];
  readonly edge: EdgeKind;
}

/** Each register may be clocked by what stands before it; two operands of an and or an or are registers. */
function clocking(index: number): fc.Arbitrary<Clocking> {
  const before = fc.integer({ min: 0, max: index });
  return fc.record({
    kind: index < 2 ? fc.constantFrom('plain', 'not') : fc.constantFrom('plain', 'not', 'and', 'or', 'xor'),
    operands: fc.tuple(before, before).filter(([left, right]) => index < 2 || left !== right),
    edge: fc.constantFrom<EdgeKind>('rising', 'falling'),
  });
}

const design = fc
  .tuple(...[0, 1, 2, 3, 4].map(clocking))
  .filter((parts) =>
    parts.every(({ kind, operands }) => (kind === 'and' || kind === 'or' ? !operands.includes(0) : true)),
  );

function networkOf(parts: readonly Clocking[]) {
  const c = circuit();
  const bits: Wire[] = [c.input('clk')];
  for (const [index, { kind, operands, edge }] of parts.entries()) {
    const [left, right] = operands.map((operand) => bits[operand]);
    const pins = {
      plain: () => left,
      not: () => c.not(left),
      and: () => c.and(left, right),
      or: () => c.or(left, right),
      xor: () => c.xor(left, right),
    };
    const clock = c.net(`c${index + 1}`, pins[kind]());
    bits.push(c.register(`q${index + 1}`, { clock, edge, data: (q) => c.not(q) }));
  }
  return describeClocks(c.build());
}

/** For each register the root edges at which it was clocked, in 64 periods from all zero. */
function clockedAt(parts: readonly Clocking[]): Set<EdgeKind>[] {
  const seen = parts.map(() => new Set<EdgeKind>());
  const bits = [false, ...parts.map(() => false)];
  const pinOf = ({ kind, operands: [left, right] }: Clocking) => {
    const [a, b] = [bits[left], bits[right]];
    return { plain: a, not: !a, and: a && b, or: a || b, xor: a !== b }[kind];
  };
  let pins = parts.map(pinOf);
  for (let step = 0; step < 128; step++) {
    bits[0] = !bits[0];
    const rootEdge: EdgeKind = bits[0] ? 'rising' : 'falling';
    for (;;) {
      const now = parts.map(pinOf);
      const hit = parts.map(({ edge }, index) => now[index] !== pins[index] && now[index] === (edge === 'rising'));
      pins = now;
      if (!hit.includes(true)) break;
      for (const [index, isHit] of hit.entries()) {
        if (!isHit) continue;
        bits[index + 1] = !bits[index + 1];
        seen[index].add(rootEdge);
      }
    }
  }
  return seen;
}

it('a register is clocked at its root edge and at no other', () => {
  fc.assert(
    fc.property(design, (parts) => {
      const { network } = networkOf(parts);
      for (const [index, edges] of clockedAt(parts).entries()) {
        const told = network.registers[index].root?.edge;
        expect(told).toBeDefined();
        if (told !== 'either') expect([...edges].filter((edge) => edge !== told)).toEqual([]);
      }
    }),
    { numRuns: 150, seed: 4 },
  );
});
