import { expect, it } from 'vitest';
import { createMemoWalk } from '../../server/src/clocks/memo-walk';
import type { Bit, NodeId } from '../../server/src/netlist/netlist';

const bitAt = (index: number): Bit => ({ node: index as NodeId, bit: 0 });

it('goes a hundred thousand steps deep without a deep stack, and each bit once', () => {
  let asked = 0;
  const depthOf = createMemoWalk<number>({
    operandsOf({ node }) {
      asked += 1;
      return node === 0 ? [] : [bitAt(node - 1), bitAt(node - 1)];
    },
    valueOf: (_bit, _operands, values) => 1 + Math.max(0, ...values.map((value) => value ?? 0)),
  });
  expect(depthOf(bitAt(100_000))).toBe(100_001);
  expect(depthOf(bitAt(99_999))).toBe(100_000);
  expect(asked).toBe(100_001);
});

it('gives null for an operand that waits for the bit itself', () => {
  const seen: (readonly (string | null)[])[] = [];
  const nameOf = createMemoWalk<string>({
    operandsOf: ({ node }) => [bitAt((node + 1) % 3)],
    valueOf({ node }, _operands, values) {
      seen.push(values);
      return `n${node}`;
    },
  });
  expect(nameOf(bitAt(0))).toBe('n0');
  expect(seen).toEqual([[null], ['n2'], ['n1']]);
});

it('may be asked from within its own rules', () => {
  const walk = createMemoWalk<number>({
    operandsOf: () => [],
    valueOf: ({ node }): number => (node === 0 ? 0 : 1 + walk(bitAt(node - 1))),
  });
  expect(walk(bitAt(5))).toBe(5);
});
