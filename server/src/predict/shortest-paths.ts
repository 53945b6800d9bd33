// The soonest that data can move behind an edge of the clock net that also samples it (definition 29, hold): clock-to-output
// and the shortest path through the logic, over every path, whether or not it can be taken. A register's own value coming
// round is left out: where it holds, nothing moves.

import { createMemoWalk } from '../clocks/memo-walk';
import type { DelaySet } from '../delays/delay-set';
import { setOfNode, setOfRegister } from '../delays/own-delays';
import { clockToQOf, logicDelayOf } from '../delays/stage-delays';
import { addTriples } from '../delays/triple';
import type { ClockNetwork } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { DelayTriple, Netlist, NodeId, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';
import { coveredByDelay } from './covered-nodes';

export interface ShortestPath {
  readonly from: RegisterId;
  readonly to: RegisterId;
  /** From the clock edge to the data's first change, corner by corner, ps. */
  readonly delay: DelayTriple;
}

interface Launch {
  readonly from: RegisterId;
  readonly delay: DelayTriple;
}

/** By clock net and edge, the two soonest from different registers. */
type Launches = ReadonlyMap<string, readonly Launch[]>;

/** At most one for each register: the shortest from another register of its clock net. */
export function shortestPaths(netlist: Netlist, network: ClockNetwork, delaySet: DelaySet): readonly ShortestPath[] {
  const { nodes, registers } = netlist;
  const delayOf = ownDelays(netlist, delaySet);
  const walk = createMemoWalk<Launches>({
    operandsOf: (bit) =>
      nodes.op[bit.node] <= Op.hole ? [] : operandsOfBit(nodes, bit).map((operand) => sourceBit(nodes, operand)),
    valueOf(bit, _, values) {
      if (nodes.op[bit.node] === Op.register) {
        const register = registers[nodes.aux[bit.node]];
        return new Map([[keyOf(register), [launchOf(netlist, network, delaySet, register)]]]);
      }
      const own = delayOf(bit.node);
      return joined(
        values.map((value) => value ?? nothing),
        own,
      );
    },
  });
  return registers.flatMap((register) => {
    const { data, id, width } = register;
    const heard = Array.from({ length: width }, (_, bit) => walk(sourceBit(nodes, { node: data, bit })));
    const found = (joined(heard, null).get(keyOf(register)) ?? []).find(({ from }) => from !== id);
    return found === undefined ? [] : [{ to: id, ...found }];
  });
}

const nothing: Launches = new Map();

function keyOf({ clock, edge }: Register): string {
  return `${bitKey(clock)} ${edge}`;
}

function launchOf(netlist: Netlist, network: ClockNetwork, delaySet: DelaySet, register: Register): Launch {
  const written = register.delay < 0 ? null : netlist.explicitDelays[register.delay];
  const { fall, rise } =
    written ?? clockToQOf(setOfRegister(delaySet, register.id), network.registers[register.id].stage);
  return { from: register.id, delay: least(rise, fall) };
}

function ownDelays(netlist: Netlist, delaySet: DelaySet): (node: NodeId) => DelayTriple {
  const { explicitDelays, nodes } = netlist;
  const covered = coveredByDelay(netlist);
  return (node) => {
    const isWritten = nodes.op[node] === Op.delay;
    if (!isWritten && covered[node] === 1) return { min: 0, typ: 0, max: 0 };
    const { fall, rise } = isWritten
      ? explicitDelays[nodes.aux[node]]
      : logicDelayOf(setOfNode(delaySet, node), nodes.op[node]);
    return least(rise, fall);
  };
}

function least(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: Math.min(left.min, right.min), typ: Math.min(left.typ, right.typ), max: Math.min(left.max, right.max) };
}

function joined(all: readonly Launches[], own: DelayTriple | null): Launches {
  if (all.length === 1 && own === null) return all[0];
  const found = new Map<string, readonly Launch[]>();
  for (const launches of all) {
    for (const [key, listed] of launches) {
      const later = own === null ? listed : listed.map(({ delay, from }) => ({ from, delay: addTriples(delay, own) }));
      found.set(key, soonest([...(found.get(key) ?? []), ...later]));
    }
  }
  return found;
}

/** Two are enough: one of them is another register than the one that asks. */
function soonest(launches: readonly Launch[]): readonly Launch[] {
  const sorted = [...launches].sort((left, right) => left.delay.min - right.delay.min || left.from - right.from);
  const second = sorted.find(({ from }) => from !== sorted[0].from);
  return second === undefined ? [sorted[0]] : [sorted[0], second];
}
