// What the registers of a design ask of its ports so that they move: walks the choices in each register's data and, where
// a choice hangs on port bits, votes for the arm on which the register moves most. Ranks: counting or shifting on its own
// value, then following other registers, then taking a port's value, then a constant, last holding.

import type { ClockNetwork, Why } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import { toBinary } from '../netlist/four-state';
import { signalSliceName } from '../netlist/bit-names';
import type { Bit, Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import { sourceBit } from '../netlist/trace';
import { isConstantNode } from './drive-resets';
import { requestsFor } from './drive-requests';

/** What the winning vote says about one port bit. */
export interface Verdict {
  readonly level: 0 | 1;
  readonly why: Why;
}

/** By `bitKey` of the port bit. The level with most votes; at a tie the one asked for first. */
export function collectVotes(netlist: Netlist, network: ClockNetwork): ReadonlyMap<number, Verdict> {
  const ballots = new Map<number, { counts: [number, number]; whys: [Why | null, Why | null]; first: 0 | 1 }>();
  const vote = (bit: Bit, level: 0 | 1, why: Why): void => {
    for (const request of requestsFor(netlist, { bit, level, choices: 'none', storage: 'passes' })) {
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
  return new Map(
    [...ballots].map(([key, { counts, whys, first }]) => {
      const level = counts[0] === counts[1] ? first : counts[0] > counts[1] ? 0 : 1;
      return [key, { level, why: whys[level] as Why }];
    }),
  );
}

type Vote = (bit: Bit, level: 0 | 1, why: Why) => void;

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

const Rank = { holds: 0, constant: 1, loads: 2, follows: 3, moves: 4 } as const;

/** Nodes looked at in one register's choices, and how deep; beyond, the rest of its choices have no vote. */
const largestChoice = 512;
const deepestChoice = 200;

function voteForMovement(netlist: Netlist, vote: Vote): void {
  const reach = reachOfNodes(netlist);
  for (const register of netlist.registers) createChoiceWalk(netlist, register, reach, vote)();
}

/** A node's place in the register's data: its lowest bit, and the state that the register is in there, where known. */
interface Spot {
  readonly node: NodeId;
  readonly low: number;
  readonly state: string | null;
}

function createChoiceWalk(netlist: Netlist, register: Register, reach: Uint8Array, vote: Vote): () => void {
  const { nodes } = netlist;
  const ranks = new Map<string, number>();
  const name = sliceName(netlist, register);
  let visits = 0;
  let depth = 0;

  function rankOf(spot: Spot): number {
    const node = throughNets(netlist, spot.node);
    const key = `${node} ${spot.low} ${spot.state}`;
    const known = ranks.get(key);
    if (known !== undefined) return known;
    visits++;
    depth++;
    const rank = visits > largestChoice || depth > deepestChoice ? Rank.holds : rankAnew({ ...spot, node });
    depth--;
    ranks.set(key, rank);
    return rank;
  }

  function rankAnew(spot: Spot): number {
    const { node } = spot;
    if (isHold(netlist, register, spot)) return Rank.holds;
    switch (nodes.op[node]) {
      case Op.mux:
        return rankMux(spot);
      case Op.select:
        return rankSelect(spot);
      case Op.concat:
        return Math.max(...partsOf(netlist, register, spot).map(rankOf));
      case Op.xor:
        return rankToggle(spot);
      case Op.slice:
        return rankOf({ ...spot, node: operandsOf(netlist, node)[0], low: spot.low - nodes.aux[node] });
      default:
        return rankLeaf(netlist, register, reach, spot);
    }
  }

  function rankMux(spot: Spot): number {
    const [select, whenOne, whenZero] = operandsOf(netlist, spot.node);
    const state = stateTested(netlist, register, select);
    const one = rankOf({ ...spot, node: whenOne, state: state ?? spot.state });
    const zero = rankOf({ ...spot, node: whenZero });
    if (one !== zero)
      vote({ node: select, bit: 0 }, one > zero ? 1 : 0, whyOf(Math.max(one, zero), Math.min(one, zero)));
    else if (one === Rank.moves) vote({ node: select, bit: 0 }, 1, { reason: 'drive-input-direction', args: { name } });
    return Math.max(one, zero);
  }

  /** A value turned by what stands beside it moves while that is 1, the T input of a toggle flip-flop. */
  function rankToggle(spot: Spot): number {
    const rank = rankLeaf(netlist, register, reach, spot);
    const operands = operandsOf(netlist, spot.node);
    const others = operands.filter((operand) => !isHold(netlist, register, { ...spot, node: operand }));
    if (others.length !== 1 || operands.length !== 2) return rank;
    const why = { reason: 'drive-input-enables', args: { name } };
    for (let bit = 0; bit < nodes.width[others[0]]; bit++) vote({ node: others[0], bit }, 1, why);
    return rank;
  }

  function rankSelect(spot: Spot): number {
    const operands = operandsOf(netlist, spot.node);
    const isOwnState = isHold(netlist, register, { node: operands[0], low: 0, state: null });
    const arms: { rank: number; label: NodeId }[] = [];
    for (let index = 1; index + 1 < operands.length; index += 2) {
      const state = isOwnState ? digitsOf(netlist, operands[index]) : null;
      arms.push({
        rank: rankOf({ ...spot, node: operands[index + 1], state: state ?? spot.state }),
        label: operands[index],
      });
    }
    const otherwise = rankOf({ ...spot, node: operands[operands.length - 1] });
    const best = Math.max(otherwise, ...arms.map(({ rank }) => rank));
    const least = Math.min(otherwise, ...arms.map(({ rank }) => rank));
    const arm = arms.find(({ rank }) => rank === best);
    if (arm !== undefined && best > least) voteForLabel(operands[0], arm.label, whyOf(best, least));
    return best;
  }

  function voteForLabel(selector: NodeId, label: NodeId, why: Why): void {
    const digits = digitsOf(netlist, label);
    if (digits === null) return;
    for (let bit = 0; bit < digits.length; bit++) {
      const digit = digits[digits.length - 1 - bit];
      if (digit === '0' || digit === '1') vote({ node: selector, bit }, digit === '1' ? 1 : 0, why);
    }
  }

  function whyOf(best: number, least: number): Why {
    if (least === Rank.holds) return { reason: 'drive-input-enables', args: { name } };
    return {
      reason:
        least === Rank.constant
          ? 'drive-input-clears'
          : best === Rank.moves
            ? 'drive-input-loads'
            : 'drive-input-chooses',
      args: { name },
    };
  }

  return () => {
    rankOf({ node: register.data, low: 0, state: null });
  };
}

function rankLeaf(netlist: Netlist, register: Register, reach: Uint8Array, { node, state }: Spot): number {
  if (isConstantNode(netlist, node))
    return state !== null && digitsOf(netlist, node) === state ? Rank.holds : Rank.constant;
  if ((reach[node] & Reach.register) === 0) return Rank.loads;
  return readsRegister(netlist, node, register.node) ? Rank.moves : Rank.follows;
}

const Reach = { input: 1, register: 2 } as const;

/** By node: whether ports, and whether stored values, are in what it is computed from. */
function reachOfNodes({ nodes }: Netlist): Uint8Array {
  const reach = new Uint8Array(nodes.count);
  for (const node of orderNodes(nodes).order) {
    const op = nodes.op[node];
    if (op === Op.input) reach[node] = Reach.input;
    if (op === Op.register || op === Op.latch || op === Op.memoryRead || op === Op.blackBox)
      reach[node] = Reach.register;
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) reach[node] |= reach[nodes.pool[entry]];
  }
  return reach;
}

/** Nodes looked at before a value is taken not to hang on the register's own. */
const largestLeaf = 2048;

function readsRegister({ nodes }: Netlist, from: NodeId, wanted: NodeId): boolean {
  const seen = new Set<number>([from]);
  const pending: number[] = [from];
  for (let node = pending.pop(); node !== undefined && seen.size < largestLeaf; node = pending.pop()) {
    if (node === wanted) return true;
    for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++) {
      const operand = nodes.pool[entry];
      if (seen.has(operand)) continue;
      seen.add(operand);
      pending.push(operand);
    }
  }
  return false;
}

/** Whether the node is the register's own value, bit for bit, where it stands in the register's data. */
function isHold({ nodes }: Netlist, register: Register, { node, low }: Spot): boolean {
  const end = Math.min(nodes.width[node], register.width - low);
  for (let bit = Math.max(0, -low); bit < end; bit++) {
    const source = sourceBit(nodes, { node, bit });
    if (source.node !== register.node || source.bit !== low + bit) return false;
  }
  return true;
}

/** The digits of a constant that the register's whole value is compared with, where `select` is such a test. */
function stateTested(netlist: Netlist, register: Register, select: NodeId): string | null {
  const test = throughNets(netlist, select);
  if (netlist.nodes.op[test] !== Op.equal) return null;
  const [left, right] = operandsOf(netlist, test);
  if (isHold(netlist, register, { node: left, low: 0, state: null })) return digitsOf(netlist, right);
  return isHold(netlist, register, { node: right, low: 0, state: null }) ? digitsOf(netlist, left) : null;
}

function digitsOf(netlist: Netlist, node: NodeId): string | null {
  const constant = throughNets(netlist, node);
  return netlist.nodes.op[constant] === Op.constant ? toBinary(netlist.constants[netlist.nodes.aux[constant]]) : null;
}

function throughNets({ nodes }: Netlist, from: NodeId): NodeId {
  let node = from;
  for (let steps = 0; nodes.op[node] === Op.net && steps < nodes.count; steps++)
    node = nodes.pool[nodes.first[node]] as NodeId;
  return node;
}

/** The parts of a concatenation that reach into the register. */
function partsOf(netlist: Netlist, register: Register, { node, low, state }: Spot): Spot[] {
  const { width } = netlist.nodes;
  let above = low + width[node];
  const parts = operandsOf(netlist, node).map((part) => {
    above -= width[part];
    return { node: part, low: above, state };
  });
  return parts.filter((part) => part.low < register.width && part.low + width[part.node] > 0);
}

function operandsOf({ nodes }: Netlist, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}

function sliceName(netlist: Netlist, { signal, low, width }: Pick<Register, 'signal' | 'low' | 'width'>): string {
  return signalSliceName(netlist.signals[signal], low, width);
}
