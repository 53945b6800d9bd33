// `shared-driver`: bits driven more than once that are no shared bus (definition 41): not on wired nets, which are meant
// for it. Where every driver can let go (tri-states), possible for two of them that the ports let drive at one time.

import { createBitNames, signalSliceName } from '../netlist/bit-names';
import type { Driver, Netlist } from '../netlist/netlist';
import { type NodeOrder, orderNodes } from '../netlist/order';
import type { FindingRule, RawFinding } from './context';
import { type Clash, clashOf } from './shared-bus';
import { instancePath } from './subjects';

export const sharedDriver: FindingRule = {
  id: 'shared-driver',
  find({ netlist }) {
    if (netlist.sharedDrivers.length === 0) return [];
    const order = orderNodes(netlist.nodes);
    return netlist.sharedDrivers.flatMap((shared) => findOne(netlist, order, shared));
  },
};

type Shared = Netlist['sharedDrivers'][number];

function findOne(netlist: Netlist, order: NodeOrder, shared: Shared): RawFinding[] {
  const wired = ['wand', 'wor', 'triand', 'trior'].includes(netlist.signals[shared.signal].type);
  if (wired) return [];
  return shared.drivers.every(({ canRelease }) => canRelease)
    ? busClash(netlist, order, shared)
    : twiceDriven(netlist, shared);
}

function twiceDriven(netlist: Netlist, shared: Shared): RawFinding[] {
  const signal = netlist.signals[shared.signal];
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
      facts: { signal: name, drivers: shared.drivers.length, while: [] },
      weight: {},
    },
  ];
}

/** The first pair that clashes speaks for the net: whoever keeps its drivers apart keeps all apart. */
function busClash(netlist: Netlist, order: NodeOrder, shared: Shared): RawFinding[] {
  for (const [index, second] of shared.drivers.entries()) {
    for (const first of shared.drivers.slice(0, index)) {
      const clash = clashOfBits(netlist, order, shared, [first, second]);
      if (clash !== null) return [clashFinding(netlist, shared, [first, second], clash)];
    }
  }
  return [];
}

function clashOfBits(netlist: Netlist, order: NodeOrder, shared: Shared, pair: readonly [Driver, Driver]) {
  for (let bit = shared.low; bit < shared.low + shared.width; bit++) {
    const [left, right] = pair.map(({ node, low }) => ({ node, bit: bit - low }));
    const clash = clashOf(netlist, order, [left, right]);
    if (clash !== null) return clash;
  }
  return null;
}

function clashFinding(
  netlist: Netlist,
  shared: Shared,
  [first, second]: readonly [Driver, Driver],
  clash: Clash,
): RawFinding {
  const signal = netlist.signals[shared.signal];
  const names = createBitNames(netlist);
  const name = signalSliceName(signal, shared.low, shared.width);
  return {
    id: 'shared-driver',
    certainty: 'possible',
    signals: [name],
    instance: instancePath(netlist, signal.instance),
    place: second.place,
    related: [{ place: first.place, why: { reason: 'also-driven', args: { signal: name } } }],
    facts: {
      signal: name,
      drivers: shared.drivers.length,
      while: clash.map(({ bit, level }) => `${names.nameOf(bit)} = ${level}`),
    },
    weight: {},
  };
}
