// Loops through latches that are open together (definition 18): what comes out goes round and in again as long as the
// gates stay open. Silent where a value is only kept, which is what latches are for; where a gate itself hears the loop;
// where the latches have no one root, since phases that nobody stated may never overlap; and behind a latch that nobody
// meant, which is told of itself.

import { bitKey } from '../netlist/bit-key';
import { type CombinationalLoop, combinationalLoops } from '../netlist/loops';
import type { LatchId } from '../netlist/netlist';
import { withOpenLatches } from '../netlist/open-latches';
import type { HazardContext } from './context';
import { type Feedback, feedbackOf } from './loop-feedback';

export interface LatchLoop extends CombinationalLoop {
  readonly feedback: Feedback;
  /** Those that must be open, ascending. */
  readonly latches: readonly LatchId[];
}

/** `told`: loops without storage, which are told already. */
export function latchLoops({ netlist, network }: HazardContext, told: readonly CombinationalLoop[]): LatchLoop[] {
  if (netlist.latches.length === 0) return [];
  const opened = withOpenLatches(netlist);
  const known = new Set(told.flatMap(({ bits }) => bits.map(bitKey)));
  return combinationalLoops(opened.netlist).flatMap(({ bits, closes }): LatchLoop[] => {
    const latches = new Set(bits.flatMap(({ node }) => opened.latchOf.get(node) ?? []));
    const clockings = [...latches].map((id) => network.latches[id]);
    const [first] = clockings;
    const hasOneRoot = latches.size === 1 || clockings.every(({ root }) => root !== null && root === first.root);
    const isTold = latches.size === 0 || bits.some((bit) => known.has(bitKey(bit)) || opened.choosing.has(bit.node));
    if (closes === 'never' || isTold || !hasOneRoot || clockings.some(({ intended }) => !intended)) return [];
    const feedback = feedbackOf(opened.netlist.nodes, bits);
    const ownBits = bits.filter(({ node }) => node < netlist.nodes.count);
    return feedback === 'keeps' ? [] : [{ bits: ownBits, closes, feedback, latches: [...latches].sort(ascending) }];
  });
}

function ascending(left: LatchId, right: LatchId): number {
  return left - right;
}
