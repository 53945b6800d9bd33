// `combinational-loop`: a bit depends on itself with no storage between, or only through latches that are open together
// (definition 18). Decided per bit; a loop that nothing closes is silent, and so are cross-coupled gates, which are storage
// somebody built. Told at the first driver of the loop that does something, and said what it does with a value that goes
// round.

import { combinationalLoops, type CombinationalLoop } from '../netlist/loops';
import type { Netlist } from '../netlist/netlist';
import type { FindingRule, RawFinding } from './context';
import { isGateLatch } from './gate-latch';
import { feedbackOf } from './loop-feedback';
import { type LatchLoop, latchLoops } from './latch-loops';
import { loopMembers } from './loop-members';
import { instancePath, latchName, togetherByPlace } from './subjects';

export const combinationalLoop: FindingRule = {
  id: 'combinational-loop',
  find(context) {
    const { netlist } = context;
    const loops = combinationalLoops(netlist);
    const plain = loops.filter(({ bits, closes }) => closes !== 'never' && !isGateLatch(netlist.nodes, bits));
    return [
      ...plain.map((loop) => findOne(netlist, loop, { feedback: feedbackOf(netlist.nodes, loop.bits), latches: [] })),
      ...latchLoops(context, loops).map((loop) => findOne(netlist, loop, loop)),
    ];
  },
};

function findOne(
  netlist: Netlist,
  loop: CombinationalLoop,
  { feedback, latches }: Pick<LatchLoop, 'feedback' | 'latches'>,
): RawFinding {
  const { nodes, places, signals } = netlist;
  const members = loopMembers(netlist, loop.bits);
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
    facts: { signals: names, bits: loop.bits.length, feedback, latches: latches.map((id) => latchName(netlist, id)) },
    weight: {},
  };
}
