// `trap-state` (definition 43): values outside a sequence that never lead back into it, as the ring of no 1 and the shift
// register of zeros. A hint where only an upset leads there; a warning where nothing says what the registers start with,
// so that they may start there. Only where every unused value was followed; with inputs as they are held.

import type { Count } from '../predict/prediction';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const trapState: FindingRule = {
  id: 'trap-state',
  find: (context) =>
    context.prediction.counts
      .filter(
        ({ explored, period, trapped, valuesTotal }) =>
          explored && period !== null && valuesTotal > 1 && trapped.length > 0,
      )
      .map((count) => findOne(context, count)),
};

/** Values named; the rest are counted. */
const mostNamed = 8;

function findOne({ netlist, network, prediction }: HazardContext, count: Count): RawFinding {
  const names = count.registers.map((id) => registerName(netlist, id));
  const first = netlist.registers[count.registers[count.registers.length - 1]];
  const isOpen = count.registers.some(
    (id) => prediction.registers[id].startFrom === 'assumed' && network.registers[id].synchronous.length === 0,
  );
  return {
    id: 'trap-state',
    certainty: null,
    signals: names,
    instance: instancePath(netlist, first.instance),
    place: first.samplePlace,
    related: [],
    facts: {
      registers: names,
      kind: count.kind,
      used: count.leadInTotal + count.valuesTotal,
      trapped: count.trapped.slice(0, mostNamed),
      trappedTotal: count.trapped.length,
      mayStartThere: isOpen,
    },
    weight: { reachable: isOpen },
  };
}
