// `combinational-loop`: a bit depends on itself with no storage between (definition 18). Decided per bit; a loop that no
// value of its selects closes is silent, and so are cross-coupled gates, which are storage somebody built. Told at the
// first driver of the loop that does something, and said what it does with a value that goes round.

import { comparePlaces } from '../clocks/network';
import { createBitNames } from '../netlist/bit-names';
import { combinationalLoops, type CombinationalLoop } from '../netlist/loops';
import { type Netlist, type NetPiece, operand } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import type { Place } from '../text/place';
import type { FindingRule, RawFinding } from './context';
import { feedbackOf, isGateLatch } from './loop-feedback';
import { instancePath, togetherByPlace } from './subjects';

export const combinationalLoop: FindingRule = {
  id: 'combinational-loop',
  find: ({ netlist }) =>
    combinationalLoops(netlist)
      .filter(({ bits, closes }) => closes !== 'never' && !isGateLatch(netlist.nodes, bits))
      .map((loop) => findOne(netlist, loop)),
};

function findOne(netlist: Netlist, loop: CombinationalLoop): RawFinding {
  const { nodes, places, signals } = netlist;
  const members = membersOf(netlist, loop);
  const [first] = members;
  const names = [...new Set(members.map(({ name }) => name))];
  return {
    id: 'combinational-loop',
    certainty: loop.closes === 'yes' ? 'certain' : 'possible',
    signals: names,
    instance: first === undefined ? '' : instancePath(netlist, signals[first.piece.signal].instance),
    place: first === undefined ? places[nodes.place[loop.bits[0].node]] : first.place,
    related: togetherByPlace(members)
      .slice(1)
      .map(({ place, names: signal }) => ({ place, why: { reason: 'loop-member', args: { signal } } })),
    facts: { signals: names, bits: loop.bits.length, feedback: feedbackOf(nodes, loop.bits) },
    weight: {},
  };
}

interface Member {
  readonly piece: NetPiece;
  readonly name: string;
  /** Where it is driven. */
  readonly place: Place;
}

/**
 * The named bits of a loop by the place of their drivers: those that a driver makes something of. Names that only pass
 * on what another name holds (ports, plain assignments) stand in only where there is nothing else.
 */
function membersOf(netlist: Netlist, { bits }: CombinationalLoop): readonly Member[] {
  const { nodes, pieces, places } = netlist;
  const names = createBitNames(netlist);
  const found = bits
    .filter(({ node }) => nodes.op[node] === Op.net)
    .map((bit) => {
      const piece = pieces[nodes.aux[bit.node]];
      const driver = operand(nodes, piece.node, 0);
      const name = names.nameOf(bit) ?? '';
      return { piece, name, place: places[nodes.place[driver]], isPassedOn: isWiring(nodes.op[driver]) };
    })
    .sort((left, right) => comparePlaces(left.place, right.place));
  const made = found.filter(({ isPassedOn }) => !isPassedOn);
  return made.length > 0 ? made : found;
}
