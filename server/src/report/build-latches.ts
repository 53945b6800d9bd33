// `latches[]` of the report: what the text holds while a gate is shut, and what gates hold that feed each other.

import { inOrder } from '../explain/places';
import { gateLatches } from '../hazards/gate-latch';
import { signalSliceName } from '../netlist/bit-names';
import { buildLoadingControl } from './build-registers';
import { type DesignFacts, domainName } from './design-facts';
import type { ReportLatch } from './report';

export function buildLatches(facts: DesignFacts): readonly ReportLatch[] {
  return inOrder([...latchesOfText(facts), ...latchesOfGates(facts)], ({ name }) => name);
}

function latchesOfText(facts: DesignFacts): readonly ReportLatch[] {
  const { netlist, network, places } = facts;
  return netlist.latches.map((latch) => {
    const { gate, active, root, domain, asynchronous, intended } = network.latches[latch.id];
    return {
      name: signalSliceName(netlist.signals[latch.signal], latch.low, latch.width),
      gate: gate === null ? null : { signal: network.clocks[gate].name, active },
      root: root === null ? null : network.roots[root].name,
      domain: domainName(facts, domain),
      asynchronous: asynchronous.map((control) => buildLoadingControl(facts, control)),
      intended,
      span: places.spanOf(latch.place),
    };
  });
}

/** Named by the first of the gates that hold each other; what opens, sets or clears so large a loop is not told apart. */
function latchesOfGates({ netlist, places }: DesignFacts): readonly ReportLatch[] {
  return gateLatches(netlist).map(([{ name, piece }]) => ({
    name,
    gate: null,
    root: null,
    domain: null,
    asynchronous: [],
    intended: true,
    span: places.spanOf(netlist.signals[piece.signal].place),
  }));
}
