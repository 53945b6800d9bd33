// Random circuits: the settled stepper against its plain oracle, and against itself with nodes in another order.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bitsOf, toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
import { advance, begin, rest, setSource } from '../../server/src/predict/settled';
import { evaluatePosition } from '../../server/src/predict/settled-logic';
import { createMachine } from '../../server/src/predict/settled-machine';
import { planSettled } from '../../server/src/predict/settled-plan';
import { buildCircuit, recipes, renumbered } from './random-circuit';
import { inputNode, type signalNode } from './settled-bench';
import { oracleOf } from './settled-oracle';

type Event = readonly [name: string, digits: string];

const digits = (width: number) =>
  fc.string({ unit: fc.constantFrom('0', '1', 'x'), minLength: width, maxLength: width });

/** One instant each: clk toggles, or something else changes alone. */
const events: fc.Arbitrary<readonly ('tick' | Event)[]> = fc.array(
  fc.oneof(
    { weight: 4, arbitrary: fc.constant('tick' as const) },
    fc.tuple(fc.constant('a'), digits(8)),
    fc.tuple(fc.constant('b'), digits(40)),
    fc.tuple(fc.constant('clear'), fc.constantFrom('0', '1')),
  ),
  { maxLength: 24 },
);

const held: readonly Event[] = [
  ['clk', '0'],
  ['clear', '0'],
  ['a', '00000001'],
  ['b', '0'.repeat(40)],
];

function machineOf(netlist: Netlist) {
  const machine = createMachine(
    planSettled(
      netlist,
      netlist.signals.map(({ node }) => node),
    ),
  );
  begin(machine, { register: (id) => netlist.registers[id].initial, latch: (id) => netlist.latches[id].initial });
  for (const [name, value] of held) setSource(machine, inputNode(netlist, name), bitsOf(value));
  rest(machine);
  return machine;
}

/** The events with ticks spelled out. */
function spelled(list: readonly ('tick' | Event)[]): Event[] {
  let level = 0;
  return list.map((event) => {
    if (event !== 'tick') return event;
    level = 1 - level;
    return ['clk', String(level)];
  });
}

const snapshot = (netlist: Netlist, read: (node: ReturnType<typeof signalNode>) => string) =>
  netlist.signals.map(({ name, node }) => `${name}=${read(node)}`).join(' ');

it('agrees with the plain reading of definition 34 after every instant', () => {
  fc.assert(
    fc.property(recipes, events, (recipe, list) => {
      const netlist = buildCircuit(recipe);
      const machine = machineOf(netlist);
      const oracle = oracleOf(
        netlist,
        held.map(([name, value]) => [inputNode(netlist, name), bitsOf(value)]),
        (register) => register.initial,
      );
      const view = (node: number) => toBinary(machine.values.views[machine.plan.positionOf[node]]);
      expect(snapshot(netlist, view)).toBe(snapshot(netlist, (node) => toBinary(oracle.value(node))));
      for (const [name, value] of spelled(list)) {
        setSource(machine, inputNode(netlist, name), bitsOf(value));
        advance(machine);
        oracle.instant([[inputNode(netlist, name), bitsOf(value)]]);
        expect(snapshot(netlist, view)).toBe(snapshot(netlist, (node) => toBinary(oracle.value(node))));
      }
      expect(machine.races).toBe(0);
    }),
    { numRuns: 150 },
  );
});

it('gives the same values whatever order the nodes come in', () => {
  fc.assert(
    fc.property(recipes, events, fc.infiniteStream(fc.nat()), (recipe, list, stream) => {
      const netlist = buildCircuit(recipe);
      const order = shuffled(netlist.nodes.count, stream);
      const other = renumbered(netlist, order);
      const [left, right] = [machineOf(netlist), machineOf(other)];
      for (const [name, value] of spelled(list)) {
        setSource(left, inputNode(netlist, name), bitsOf(value));
        setSource(right, inputNode(other, name), bitsOf(value));
        advance(left);
        advance(right);
        for (let node = 0; node < netlist.nodes.count; node++) {
          const at = left.plan.positionOf[node];
          if (at < 0) continue;
          const there = right.values.views[right.plan.positionOf[order[node]]];
          expect(toBinary(there)).toBe(toBinary(left.values.views[at]));
        }
      }
    }),
    { numRuns: 60 },
  );
});

it('evaluates one limb as any width: the fast path is the meaning', () => {
  fc.assert(
    fc.property(recipes, digits(8), digits(40), (recipe, a, b) => {
      const netlist = buildCircuit(recipe);
      const machine = machineOf(netlist);
      setSource(machine, inputNode(netlist, 'a'), bitsOf(a));
      setSource(machine, inputNode(netlist, 'b'), bitsOf(b));
      advance(machine);
      const { plan, values } = machine;
      const before = values.views.map(toBinary);
      values.narrow.fill(0);
      for (let position = 0; position < plan.nodes.length; position++) evaluatePosition(plan, values, position);
      expect(values.views.map(toBinary)).toEqual(before);
    }),
    { numRuns: 150 },
  );
});

function shuffled(count: number, stream: Stream): number[] {
  const order = Array.from({ length: count }, (_, node) => node);
  const numbers = stream[Symbol.iterator]();
  for (let last = count - 1; last > 0; last--) {
    const other = (numbers.next().value as number) % (last + 1);
    [order[last], order[other]] = [order[other], order[last]];
  }
  return order;
}

type Stream = Iterable<number>;
