// `shared-driver`: bits driven more than once that are no shared bus (definition 41): not where every driver but one can
// let go (tri-states), not on wired nets, which are meant for it.

import { signalSliceName } from '../netlist/bit-names';
import type { Netlist } from '../netlist/netlist';
import type { FindingRule, RawFinding } from './context';
import { instancePath } from './subjects';

export const sharedDriver: FindingRule = {
  id: 'shared-driver',
  find: ({ netlist }) => netlist.sharedDrivers.flatMap((shared) => findOne(netlist, shared)),
};

function findOne(netlist: Netlist, shared: Netlist['sharedDrivers'][number]): RawFinding[] {
  const signal = netlist.signals[shared.signal];
  const wired = ['wand', 'wor', 'triand', 'trior'].includes(signal.type);
  if (wired || shared.drivers.every(({ canRelease }) => canRelease)) return [];
  const name = signalSliceName(signal, shared.low, shared.width);
  const [, second] = shared.drivers;
  return [
    {
      id: 'shared-driver',
      certainty: null,
      signals: [name],
      instance: instancePath(netlist, signal.instance),
      place: second.place,
      related: shared.drivers
        .filter((driver) => driver !== second)
        .map(({ place }) => ({ place, why: { reason: 'also-driven', args: { signal: name } } })),
      facts: { signal: name, drivers: shared.drivers.length },
      weight: {},
    },
  ];
}
