// `unintended-latch`: a process that looks like logic keeps a value on some path (definition 40). Latches that somebody
// meant are listed in the report and are no finding.

import { signalSliceName } from '../netlist/bit-names';
import type { Latch } from '../netlist/netlist';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath } from './subjects';

export const unintendedLatch: FindingRule = {
  id: 'unintended-latch',
  find: (context) =>
    context.netlist.latches
      .filter(({ id }) => !context.network.latches[id].intended)
      .map((latch) => findOne(context, latch)),
};

function findOne({ netlist }: HazardContext, latch: Latch): RawFinding {
  const name = signalSliceName(netlist.signals[latch.signal], latch.low, latch.width);
  return {
    id: 'unintended-latch',
    certainty: null,
    signals: [name],
    instance: instancePath(netlist, latch.instance),
    place: latch.holdPlace,
    related: [{ place: latch.place, why: { reason: 'latch-declared', args: { latch: name } } }],
    facts: { latch: name, flavor: latch.flavor },
    weight: {},
  };
}
