// What one register asks of the ports so that it moves: walks the choices in its data and, where a choice hangs on port
// bits, votes for the arm on which it moves most. Ranks: counting or shifting on its own value, then following other
// registers, then taking a port's value, then a constant, last holding.

import type { Why } from '../clocks/network';
import type { Bit, Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import { isConstantNode } from './drive-resets';
import { digitsOf, isHold, operandsOf, partsOf, sliceName, type Spot, stateTested, throughNets } from './drive-spots';

/** Asks for a level of an inner bit; what that means for ports is the receiver's matter. */
export type Vote = (bit: Bit, level: 0 | 1, why: Why) => void;

const Rank = { holds: 0, constant: 1, loads: 2, follows: 3, moves: 4 } as const;

/** Nodes looked at in one register's choices, and how deep; beyond, the rest of its choices have no vote. */
const largestChoice = 512;
const deepestChoice = 200;

export function voteForMovement(netlist: Netlist, vote: Vote): void {
  const reach = reachOfNodes(netlist);
  for (const register of netlist.registers) createChoiceWalk(netlist, register, reach, vote)();
}

function createChoiceWalk(netlist: Netlist, register: Register, reach: Uint8Array, vote: Vote): () => void {
  const { nodes } = netlist;
  const ranks = new Map<string, number>();
  const name = sliceName(netlist, register);
  let visits = 0;
  let depth = 0;

  function rankOf(spot: Spot): number {
    const node = throughNets(netlist, spot.node);
    const here = { ...spot, node };
    if (!isChoice(nodes.op[node])) return rankAnew(here);
    const key = `${node} ${spot.low} ${spot.state}`;
    const known = ranks.get(key);
    if (known !== undefined) return known;
    visits++;
    depth++;
    const rank = visits > largestChoice || depth > deepestChoice ? Rank.holds : rankAnew(here);
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
      case Op.memoryPick:
        return rankPick(spot);
      case Op.concat:
        return partsOf(netlist, register, spot).reduce((best, part) => Math.max(best, rankOf(part)), 0);
      case Op.xor:
        return rankToggle(spot);
      case Op.slice:
        return rankOf({ ...spot, node: operandsOf(netlist, node)[0], low: spot.low - nodes.aux[node] });
      case Op.memoryWrite:
      case Op.memoryFill:
        return rankLeaf(netlist, register, reach, { ...spot, node: operandsOf(netlist, node)[1] });
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

  /** A choice between contents of a memory, made by a case of as many bits as contents. */
  function rankPick(spot: Spot): number {
    const [which, ...contents] = operandsOf(netlist, spot.node);
    const ranks = contents.map((node) => rankOf({ ...spot, node }));
    const best = Math.max(...ranks);
    const least = Math.min(...ranks);
    const [selector, ...rest] = operandsOf(netlist, which);
    if (best === least) return best;
    const place = ranks.indexOf(best);
    const isLabelled = nodes.op[which] === Op.select && 2 * place < rest.length - 1;
    if (isLabelled) voteForLabel(selector, rest[2 * place], whyOf(best, least));
    return best;
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
    const best = arms.reduce((most, { rank }) => Math.max(most, rank), otherwise);
    const least = arms.reduce((fewest, { rank }) => Math.min(fewest, rank), otherwise);
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
    if (least === Rank.constant) return { reason: 'drive-input-clears', args: { name } };
    return { reason: best === Rank.moves ? 'drive-input-loads' : 'drive-input-chooses', args: { name } };
  }

  return () => {
    rankOf({ node: register.data, low: 0, state: null });
  };
}

/** What is walked through, and so met again and again where arms share it. */
function isChoice(op: number): boolean {
  return op === Op.mux || op === Op.select || op === Op.memoryPick || op === Op.concat || op === Op.slice;
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
    if (op === Op.register || op === Op.latch || op === Op.blackBox) reach[node] = Reach.register;
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
