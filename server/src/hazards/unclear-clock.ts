// `unclear-clock`: a gate in a clock path, and nothing tells which operand is the clock (definition 4). It asks.

import type { Clock } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { clockedBy, clocksHere, instancePath } from './subjects';

export const unclearClock: FindingRule = {
  id: 'unclear-clock',
  find: (context) =>
    context.network.clocks
      .filter(({ candidates }) => candidates.length > 0)
      .flatMap((clock) => findOne(context, clock)),
};

function findOne(context: HazardContext, clock: Clock): RawFinding[] {
  const { netlist } = context;
  const clocked = clockedBy(context, clock.id);
  if (clocked.length === 0) return [];
  const [first] = clocked;
  return [
    {
      id: 'unclear-clock',
      certainty: null,
      signals: [clock.name, ...clock.candidates],
      instance: instancePath(netlist, first.instance),
      place: first.clockPlace,
      related: [
        { place: clock.place, why: { reason: 'unclear-gate', args: { clock: clock.name } } },
        ...clocksHere(netlist, clock, clocked.slice(1)),
      ],
      facts: { clock: clock.name, candidates: [...clock.candidates], registers: clocked.length },
      weight: {},
    },
  ];
}
