// The named bits of a combinational loop, in order of the places that drive them.

import { comparePlaces } from '../clocks/network';
import { createBitNames } from '../netlist/bit-names';
import { type Bit, type Netlist, type NetPiece, operand } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import type { Place } from '../text/place';

export interface LoopMember {
  readonly bit: Bit;
  readonly piece: NetPiece;
  readonly name: string;
  /** Where it is driven. */
  readonly place: Place;
}

/**
 * The named bits of a loop by the place of their drivers: those that a driver makes something of. Names that only pass
 * on what another name holds (ports, plain assignments) stand in only where there is nothing else.
 */
export function loopMembers(netlist: Netlist, loop: readonly Bit[]): readonly LoopMember[] {
  const { nodes, pieces, places } = netlist;
  const names = createBitNames(netlist);
  const found = loop
    .filter(({ node }) => nodes.op[node] === Op.net)
    .map((bit) => {
      const piece = pieces[nodes.aux[bit.node]];
      const driver = operand(nodes, piece.node, 0);
      const name = names.nameOf(bit) ?? '';
      return { bit, piece, name, place: places[nodes.place[driver]], isPassedOn: isWiring(nodes.op[driver]) };
    })
    .sort((left, right) => comparePlaces(left.place, right.place));
  const made = found.filter(({ isPassedOn }) => !isPassedOn);
  return made.length > 0 ? made : found;
}
