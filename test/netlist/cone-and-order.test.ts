// Cones, readers and the order of nodes.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combinationalCone, cone, createFanout } from '../../server/src/netlist/cone';
import type { NodeColumns, NodeId } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';
import { orderNodes } from '../../server/src/netlist/order';
import { circuit, type Wire } from '../tools/circuit';

function inside(marks: Uint8Array, ...wires: readonly Wire[]): number[] {
  return wires.map(({ node }) => marks[node]);
}

describe('cones', () => {
  it('end at registers, or go on through what they sample, their clock and their controls', () => {
    const c = circuit();
    const [clk, d, reset, other] = [c.input('clk'), c.input('d'), c.input('reset'), c.input('other')];
    const q = c.register('q', {
      clock: clk,
      data: c.not(d),
      asynchronous: [{ control: reset, active: 'high', value: '0' }],
    });
    const held = c.latch('held', { gate: clk, data: other });
    const y = c.output('y', c.not(q));
    const z = c.output('z', held);
    const netlist = c.build();
    expect(inside(combinationalCone(netlist.nodes, [y.node]), y, q, clk, d, reset, other)).toEqual([1, 1, 0, 0, 0, 0]);
    expect(inside(cone(netlist, [y.node]), y, q, clk, d, reset, other)).toEqual([1, 1, 1, 1, 1, 0]);
    expect(inside(cone(netlist, [z.node]), z, held, clk, other, d)).toEqual([1, 1, 1, 1, 0]);
  });

  it('are their own converse: n is in the cone of r exactly if r is reached by readers from n', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 40 }), (pairs) => {
        const c = circuit();
        const wires = [c.input('a')];
        for (const [left, right] of pairs) wires.push(c.and(wires[left % wires.length], wires[right % wires.length]));
        const { nodes } = c.build();
        const root = wires[wires.length - 1].node;
        const marks = combinationalCone(nodes, [root]);
        for (const { node } of wires) expect(marks[node] === 1).toBe(reaches(nodes, node, root));
      }),
    );
  });
});

function reaches(nodes: NodeColumns, from: NodeId, to: NodeId): boolean {
  const fanout = createFanout(nodes);
  const seen = new Set<number>();
  const waiting: number[] = [from];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    waiting.push(...fanout.reader.subarray(fanout.first[node], fanout.first[node + 1]));
  }
  return seen.has(to);
}

describe('order', () => {
  it('stands every node after its operands, sources first', () => {
    const c = circuit();
    const a = c.input('a');
    const late: Wire = c.net('late', () => c.and(a, middle));
    const middle = c.net('middle', c.not(a));
    c.output('y', late);
    const { nodes } = c.build();
    const { order, level, knots } = orderNodes(nodes);
    const rank = new Map(Array.from(order, (node, index) => [node, index]));
    expect(rank.size).toBe(nodes.count);
    expect(knots).toEqual([]);
    for (let node = 0; node < nodes.count; node++) {
      for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++) {
        expect(rank.get(nodes.pool[entry])).toBeLessThan(rank.get(node) as number);
        expect(level[nodes.pool[entry]]).toBeLessThan(level[node]);
      }
      if (nodes.arity[node] === 0) expect(level[node]).toBe(0);
    }
  });

  it('keeps nodes that feed each other together, and on one level', () => {
    const c = circuit();
    const a = c.input('a');
    const first: Wire = c.net('first', () => c.nand(a, second));
    const second: Wire = c.net('second', () => c.not(first));
    const y = c.output('y', second);
    const ring = c.net('ring', (self) => self);
    const { nodes } = c.build();
    const { knots, level } = orderNodes(nodes);
    expect(knots.map((knot) => knot.map((node) => nodes.op[node]).sort())).toEqual([
      [Op.net, Op.net, Op.not, Op.nand].sort(),
      [Op.net],
    ]);
    expect(knots[1]).toEqual([ring.node]);
    expect(new Set(knots[0].map((node) => level[node])).size).toBe(1);
    expect(level[y.node]).toBe(level[knots[0][0]] + 1);
  });

  it('lists knots by their first node, whichever reads the other', () => {
    const c = circuit();
    const reader: Wire = c.net('reader', (self) => c.and(self, read));
    const read = c.net('read', (self) => c.not(self));
    const { knots } = orderNodes(c.build().nodes);
    expect(knots.map(([first]) => first)).toEqual([reader.node, read.node]);
  });

  it('does not recurse: a chain of a hundred thousand nodes', () => {
    const c = circuit();
    let last = c.input('a');
    for (let index = 0; index < 100_000; index++) last = c.not(last);
    const { nodes } = c.build();
    const { level, order } = orderNodes(nodes);
    expect(level[last.node]).toBe(100_001);
    expect(order.length).toBe(nodes.count);
    expect(combinationalCone(nodes, [last.node]).every((mark) => mark === 1)).toBe(true);
  });
});
