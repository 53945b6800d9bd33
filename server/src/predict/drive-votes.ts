// At which level each port bit lets most of the design move: registers, clock gates and latches vote, the majority wins.

import type { ClockNetwork, Why } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { Netlist } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { type Vote, voteForMovement } from './drive-movement';
import { type PortRequest, requestsFor } from './drive-requests';
import { isConstantNode } from './drive-resets';
import { operandsOf, sliceName } from './drive-spots';

/** What the winning vote says about one port bit. */
export interface Verdict {
  readonly level: 0 | 1;
  readonly why: Why;
}

interface Ballot {
  /** Votes for 0 and for 1, and the first reason given for each. */
  readonly counts: [number, number];
  readonly whys: [Why | null, Why | null];
  readonly first: 0 | 1;
}

/** By `bitKey` of the port bit. The level with most votes; at a tie the one asked for first. */
export function collectVotes(netlist: Netlist, network: ClockNetwork): ReadonlyMap<number, Verdict> {
  const ballots = new Map<number, Ballot>();
  const requests = createRequests(netlist);
  const vote: Vote = (bit, level, why) => {
    for (const request of requests({ bit, level })) {
      const key = bitKey(request.bit);
      const ballot = ballots.get(key) ?? { counts: [0, 0], whys: [null, null], first: request.level };
      ballot.counts[request.level]++;
      ballot.whys[request.level] ??= why;
      ballots.set(key, ballot);
    }
  };
  voteForClockGates(netlist, network, vote);
  voteForLoads(netlist, network, vote);
  voteForMovement(netlist, vote);
  return new Map([...ballots].map(([key, ballot]) => [key, verdictOf(ballot)]));
}

function verdictOf({ counts, whys, first }: Ballot): Verdict {
  const level = counts[0] === counts[1] ? first : counts[0] > counts[1] ? 0 : 1;
  return { level, why: whys[level] as Why };
}

/** Thousands of registers ask for the same enable: each wish is walked back once. */
function createRequests(netlist: Netlist): (wish: PortRequest) => readonly PortRequest[] {
  const known = new Map<number, readonly PortRequest[]>();
  return ({ bit, level }) => {
    const source = sourceBit(netlist.nodes, bit);
    const key = 2 * bitKey(source) + level;
    const found = known.get(key) ?? requestsFor(netlist, { bit: source, level, choices: 'none', storage: 'passes' });
    known.set(key, found);
    return found;
  };
}

/** Clock gates pass, latch gates are open. */
function voteForClockGates(netlist: Netlist, network: ClockNetwork, vote: Vote): void {
  const { nodes } = netlist;
  for (const { bit, name, gate } of network.clocks) {
    if (gate === null) continue;
    const op = nodes.op[bit.node];
    if (op !== Op.and && op !== Op.nand && op !== Op.or && op !== Op.nor) continue;
    const passing = op === Op.and || op === Op.nand ? 1 : 0;
    const why = { reason: 'drive-input-passes-clock', args: { name } };
    for (const operand of operandsOf(netlist, bit.node)) vote({ node: operand, bit: bit.bit }, passing, why);
  }
  for (const latch of netlist.latches) {
    const why = { reason: 'drive-input-opens-latch', args: { name: sliceName(netlist, latch) } };
    vote(latch.gate, latch.active === 'high' ? 1 : 0, why);
  }
}

/** Asynchronous loads of something that is no constant are not resets: inactive. */
function voteForLoads(netlist: Netlist, network: ClockNetwork, vote: Vote): void {
  for (const { register, asynchronous } of network.registers) {
    for (const { bit, active, value } of asynchronous) {
      if (isConstantNode(netlist, value)) continue;
      const why = { reason: 'drive-input-loads', args: { name: sliceName(netlist, netlist.registers[register]) } };
      vote(bit, active === 'high' ? 0 : 1, why);
    }
  }
}
