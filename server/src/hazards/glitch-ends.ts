// Where a glitch can do something: every pin that reads logic (definition 42 of the project). Clocks, asynchronous
// controls and latch gates of registers, tri-state enables, data of registers and latches, top-level outputs, pins of
// black boxes. A memory that is written at a clock edge has data like any register; it is kept as one content, so that
// what decides it is asked about, not its bits.

import type { ClockNetwork, DomainId, RootEdge } from '../clocks/network';
import { contentInputs } from '../netlist/content-inputs';
import { signalBitName, signalSliceName } from '../netlist/bit-names';
import type { Bit, Netlist, NodeId, Register, RegisterId } from '../netlist/netlist';
import { memoryHeldIn, operand, topPorts } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Place } from '../text/place';
import type { EndKind } from './glitch';
import { releaseOf } from './glitch-release';

export interface EndPin {
  readonly kind: EndKind;
  /** The bit that the pin reads. */
  readonly bit: Bit;
  /** What is at the end: a register, latch, port or pin. */
  readonly signal: string;
  readonly place: Place;
  /** Root of what reads it; null where that has none or more than one. */
  readonly root: number | null;
  /** Which edge of it that follows. */
  readonly rootEdge: RootEdge | null;
  /** Of data: other domains whose bits keep still while this samples them (held under an enable, or stated static). */
  readonly stillFrom?: readonly DomainId[];
}

/** All ends, pins in order of registers, latches, tri-states, ports, black boxes. `data` of another root is told later. */
export function findEnds(netlist: Netlist, network: ClockNetwork, names: (node: NodeId) => string | null): EndPin[] {
  const worthAsking = readersWorthAsking(network);
  return [
    ...netlist.registers.flatMap((register) =>
      registerEnds(netlist, network, register).filter(({ kind }) => kind !== 'data' || worthAsking.has(register.id)),
    ),
    ...latchEnds(netlist, network),
    ...tristateEnds(netlist, names),
    ...outputEnds(netlist),
    ...blackBoxEnds(netlist),
  ];
}

/**
 * Registers whose data can matter: those of a root with derived clocks, where not everything arrives at once, and those
 * that sample another domain. For all others data settles within its period or is a matter of setup.
 */
function readersWorthAsking(network: ClockNetwork): ReadonlySet<number> {
  const skewed = new Set(
    network.registers.flatMap(({ root, stage }) => (stage > 1 && root !== null ? [root.root] : [])),
  );
  const crossed = new Set(network.crossings.map(({ to }) => to));
  const found = network.registers.filter(
    ({ register, root }) => crossed.has(register) || root === null || skewed.has(root.root),
  );
  return new Set(found.map(({ register }) => register));
}

function registerEnds(netlist: Netlist, network: ClockNetwork, register: Register): EndPin[] {
  const { id, clock, clockPlace, asynchronous, samplePlace, low, width } = register;
  const signal = signalSliceName(netlist.signals[register.signal], low, width);
  const root = network.registers[id].root?.root ?? null;
  const rootEdge = network.registers[id].root?.edge ?? null;
  const stillFrom = stillSenders(network, id);
  return [
    { kind: 'clock', bit: clock, signal, place: clockPlace, root, rootEdge },
    ...asynchronous.map(
      ({ control, place }): EndPin => ({ kind: 'reset', bit: control, signal, place, root, rootEdge }),
    ),
    ...dataBits(netlist, register).map(
      (bit, index): EndPin => ({
        kind: 'data',
        bit,
        signal: signalBitName(netlist.signals[register.signal], low + index),
        place: samplePlace,
        root,
        rootEdge,
        stillFrom,
      }),
    ),
  ];
}

function dataBits(netlist: Netlist, register: Register): readonly Bit[] {
  const { data, width } = register;
  if (memoryHeldIn(netlist, register) === null) return Array.from({ length: width }, (_, bit) => ({ node: data, bit }));
  return contentInputs(netlist.nodes, data);
}

function stillSenders({ crossings }: ClockNetwork, receiver: RegisterId): readonly DomainId[] {
  return crossings
    .filter(({ to }) => to === receiver)
    .filter(
      ({ depth, status, synchronizer }) =>
        // Gray after fewer than two flip-flops: a memory's word, whose address follows a pointer of that code.
        status === 'accepted' ||
        ['enable', 'handshake'].includes(synchronizer) ||
        (synchronizer === 'gray' && depth < 2),
    )
    .map(({ fromDomain }) => fromDomain);
}

/** A latch that nobody meant is told as such; that its gate pulses follows from it. */
function latchEnds(netlist: Netlist, network: ClockNetwork): EndPin[] {
  const meant = netlist.latches.filter(({ id }) => network.latches[id].intended);
  return meant.flatMap((latch) => {
    const { id, gate, asynchronous, holdPlace } = latch;
    const signal = signalSliceName(netlist.signals[latch.signal], latch.low, latch.width);
    const { root } = network.latches[id];
    return [
      { kind: 'latch', bit: gate, signal, place: holdPlace, root, rootEdge: null } as const,
      ...asynchronous.map(
        (use): EndPin => ({ kind: 'reset', bit: use.control, signal, place: use.place, root, rootEdge: null }),
      ),
    ];
  });
}

function tristateEnds(netlist: Netlist, names: (node: NodeId) => string | null): EndPin[] {
  const { nodes, places } = netlist;
  const shared = sharedNets(netlist);
  const ends: EndPin[] = [];
  for (let node = 0; node < nodes.count; node++) {
    const release = releaseOf(netlist, node as NodeId);
    if (release === null) continue;
    ends.push({
      kind: 'tristate',
      bit: release.enable,
      signal: names(node as NodeId) ?? shared.get(node) ?? '',
      place: places[nodes.place[node]],
      root: null,
      rootEdge: null,
    });
  }
  return ends;
}

/** The net that each of several drivers drives, by driver. */
function sharedNets({ nodes, resolutions, signals }: Netlist): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.resolve) continue;
    const { name } = signals[resolutions[nodes.aux[node]].signal];
    for (let index = 0; index < nodes.arity[node]; index++) found.set(operand(nodes, node as NodeId, index), name);
  }
  return found;
}

function outputEnds(netlist: Netlist): EndPin[] {
  return topPorts(netlist)
    .filter(({ port }) => port === 'output' || port === 'inout')
    .flatMap((signal) =>
      Array.from(
        { length: signal.width },
        (_, bit): EndPin => ({
          kind: 'output',
          bit: { node: signal.node, bit },
          signal: signalBitName(signal, bit),
          place: signal.place,
          root: null,
          rootEdge: null,
        }),
      ),
    );
}

function blackBoxEnds(netlist: Netlist): EndPin[] {
  return netlist.blackBoxes.flatMap(({ instance, pins }) =>
    pins
      .filter(({ output }) => output < 0)
      .flatMap(({ name, node, place }) =>
        Array.from(
          { length: netlist.nodes.width[node] },
          (_, bit): EndPin => ({
            kind: 'black-box',
            bit: { node, bit },
            signal: netlist.nodes.width[node] === 1 ? `${instance}.${name}` : `${instance}.${name}[${bit}]`,
            place,
            root: null,
            rootEdge: null,
          }),
        ),
      ),
  );
}
