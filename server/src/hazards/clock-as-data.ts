// `clock-as-data` (definition 37): a root or gated clock that reaches the data of a register of its own domain. At the edge
// that samples, that level is on the move, so what is taken hangs on which path is shorter. Not told: what other domains
// sample (a crossing), register outputs that clock something, clocks that are chosen between, outputs, latch gates.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Netlist, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';
import type { Clock } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const clockAsData: FindingRule = {
  id: 'clock-as-data',
  find(context) {
    const clocks = levelClocks(context);
    const reached = context.netlist.registers.flatMap((to) => reachedBy(context, clocks, to));
    const keys = [...new Set(reached.map(keyOf))];
    return keys.map((key) =>
      findOne(
        context,
        reached.filter((one) => keyOf(one) === key),
      ),
    );
  },
};

interface Reached {
  readonly to: Register;
  readonly clock: Clock;
}

/** One finding per process and clock. */
function keyOf({ to, clock }: Reached): string {
  return `${to.process} ${clock.id}`;
}

/** By the bit that is the clock: roots that clock registers, gated clocks. Switched ones are there to end a walk. */
function levelClocks({ network }: HazardContext): ReadonlyMap<number, Clock> {
  const clocking = new Set(network.registers.flatMap(({ roots }) => roots));
  const isLevel = ({ kind, roots }: Clock) =>
    kind === 'gated' || kind === 'switched' || (kind === 'root' && roots.some((root) => clocking.has(root)));
  return new Map(network.clocks.filter(isLevel).map((clock) => [bitKey(clock.bit), clock]));
}

function reachedBy({ netlist, network }: HazardContext, clocks: ReadonlyMap<number, Clock>, to: Register): Reached[] {
  const { domain } = network.registers[to.id];
  return clocksHeard(netlist, clocks, to)
    .filter((clock) => clock.kind !== 'switched' && clock.domain !== null && clock.domain === domain)
    .map((clock) => ({ to, clock }));
}

/** Clocks in the register's data, the nearest on each way: a gated clock stands for the root behind it. */
function clocksHeard({ nodes }: Netlist, clocks: ReadonlyMap<number, Clock>, to: Register): Clock[] {
  const found = new Set<Clock>();
  const seen = new Set<number>();
  const waiting: Bit[] = Array.from({ length: to.width }, (_, bit) => ({ node: to.data, bit }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (seen.has(bitKey(next))) continue;
    seen.add(bitKey(next));
    const clock = clocks.get(bitKey(next));
    if (clock !== undefined) found.add(clock);
    else if (nodes.op[next.node] !== Op.register && nodes.op[next.node] !== Op.latch)
      visitOperandsOfBit(nodes, next, (node, bit) => waiting.push({ node, bit }));
  }
  return [...found].sort((left, right) => left.id - right.id);
}

function findOne({ netlist }: HazardContext, reached: readonly Reached[]): RawFinding {
  const [{ clock, to }] = reached;
  const names = reached.map((one) => registerName(netlist, one.to.id));
  return {
    id: 'clock-as-data',
    certainty: null,
    signals: [clock.name, ...names],
    instance: instancePath(netlist, to.instance),
    place: to.samplePlace,
    related: [{ place: clock.place, why: { reason: 'clock-made', args: { clock: clock.name } } }],
    facts: { clock: clock.name, kind: clock.kind, registers: names },
    weight: {},
  };
}
