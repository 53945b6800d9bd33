// `combinational-loop`: a bit depends on itself with no storage between (definition 18). Decided per bit; a loop that no
// value of its selects closes is silent, and so are cross-coupled gates, which are storage somebody built.

import { comparePlaces } from '../clocks/network';
import { createBitNames } from '../netlist/bit-names';
import { combinationalLoops, type CombinationalLoop } from '../netlist/loops';
import { type Bit, type Netlist, type NetPiece, operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { FindingRule, RawFinding } from './context';
import { isGateLatch } from './gate-latch';
import { instancePath } from './subjects';

export const combinationalLoop: FindingRule = {
  id: 'combinational-loop',
  find: ({ netlist }) =>
    combinationalLoops(netlist)
      .filter(({ bits, closes }) => closes !== 'never' && !isGateLatch(netlist.nodes, bits))
      .map((loop) => findOne(netlist, loop)),
};

function findOne(netlist: Netlist, { bits, closes }: CombinationalLoop): RawFinding {
  const names = createBitNames(netlist);
  const named = bits
    .filter((bit) => netlist.nodes.op[bit.node] === Op.net)
    .sort((left, right) =>
      comparePlaces(driverPlace(netlist, pieceOf(netlist, left)), driverPlace(netlist, pieceOf(netlist, right))),
    );
  const signals = [...new Set((named.length > 0 ? named : bits).map((bit) => names.nameOf(bit)))].filter(
    (name) => name !== null,
  );
  const first = named.length > 0 ? pieceOf(netlist, named[0]) : null;
  const place = netlist.places[netlist.nodes.place[bits[0].node]];
  return {
    id: 'combinational-loop',
    certainty: closes === 'yes' ? 'certain' : 'possible',
    signals,
    instance: first === null ? '' : instancePath(netlist, netlist.signals[first.signal].instance),
    place: first === null ? place : driverPlace(netlist, first),
    related: named.slice(1).map((bit) => ({
      place: driverPlace(netlist, pieceOf(netlist, bit)),
      why: { reason: 'loop-member', args: { signal: names.nameOf(bit) ?? '' } },
    })),
    facts: { signals, bits: bits.length },
    weight: {},
  };
}

function pieceOf(netlist: Netlist, bit: Bit): NetPiece {
  return netlist.pieces[netlist.nodes.aux[bit.node]];
}

/** Where the piece is driven: its operand stands there, the net node itself at the declaration. */
function driverPlace({ nodes, places }: Netlist, { node }: NetPiece) {
  return places[nodes.place[operand(nodes, node, 0)]];
}
