// `derived-clock`: a register's or decode's output clocks something that is no link of a ripple chain (definition 10).
// One per derived clock, at the first edge list that uses it.

import type { Clock } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { chainLinks, clockedBy, instancePath, registerName, rootName, togetherByPlace } from './subjects';

export const derivedClock: FindingRule = {
  id: 'derived-clock',
  find(context) {
    const links = chainLinks(context.network);
    return context.network.clocks
      .filter(({ kind }) => kind === 'derived')
      .flatMap((clock) => findOne(context, links, clock));
  },
};

function findOne(context: HazardContext, links: ReturnType<typeof chainLinks>, clock: Clock): RawFinding[] {
  const { netlist, network, prediction } = context;
  const clocked = clockedBy(context, clock.id).filter(({ id }) => !links.has(id));
  if (clocked.length === 0) return [];
  const [first] = clocked;
  const { ratio, uniform } = prediction.clocks[clock.id];
  const arrival = prediction.registers[first.id].arrival;
  return [
    {
      id: 'derived-clock',
      certainty: null,
      signals: [clock.name, ...clocked.map(({ id }) => registerName(netlist, id))],
      instance: instancePath(netlist, first.instance),
      place: first.clockPlace,
      related: togetherByPlace(
        clock.sourceRegisters.map(({ register }) => ({
          place: netlist.registers[register].place,
          name: registerName(netlist, register),
        })),
      ).map(({ place, names }) => ({
        place,
        why: { reason: 'derived-from', args: { register: names, clock: clock.name } },
      })),
      facts: {
        clock: clock.name,
        root: rootName(network, clock),
        from: [...clock.fromNames],
        stage: clock.stage + 1,
        registers: clocked.length,
        ratio: ratio === null ? null : `${ratio.numerator}/${ratio.denominator}`,
        uniform,
        arrivalMinPs: arrival?.min ?? null,
        arrivalTypPs: arrival?.typ ?? null,
        arrivalMaxPs: arrival?.max ?? null,
      },
      weight: {},
    },
  ];
}
