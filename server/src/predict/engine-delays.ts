// How long each cell and each stored bit takes, for one corner of one delay set: small tables indexed by number, so that
// a change looks its delay up without branching. An explicit delay of the text stands for the whole expression below it
// (IEEE 1364-2005 6.1.3), so operators that only feed an explicit delay take none of the set.

import type { DelaySet, DirectionalDelay } from '../delays/delay-set';
import { everySet, setOfNode } from '../delays/own-delays';
import { logicDelayOf } from '../delays/stage-delays';
import type { Corner } from '../delays/triple';
import type { DelayTriple, ExplicitDelay, Netlist, NodeId, PathDelay } from '../netlist/netlist';
import { isMemoryOperator, Op } from '../netlist/operators';
import { coveredByDelay } from './covered-nodes';

/** Delay classes by number; 0 is no delay. ps, by the level that a change ends in: 0, 1, z, x. */
export interface DelayTable {
  /** ps of a change to level l under class c: `ps[4 * c + l]`. */
  readonly ps: number[];
}

export const noDelay = 0;

export function createDelayTable(): DelayTable {
  return { ps: [0, 0, 0, 0] };
}

/** Class of a delay with two directions: to z and to x the smaller one (IEEE 1364-2005 7.14). */
export function addDirectional(table: DelayTable, delay: DirectionalDelay | null, corner: Corner): number {
  if (delay === null) return noDelay;
  const least = smaller(delay.rise, delay.fall, corner);
  return addClass(table, delay.fall[corner], delay.rise[corner], least, least);
}

/** Class of a delay that is the same in every direction: the longer one. */
export function addEven(table: DelayTable, delay: DirectionalDelay | null, corner: Corner): number {
  if (delay === null) return noDelay;
  const longest = Math.max(delay.rise[corner], delay.fall[corner]);
  return addClass(table, longest, longest, longest, longest);
}

/** Class of a delay of the text: to x the smallest of the three (7.14). */
export function addExplicit(table: DelayTable, delay: ExplicitDelay, corner: Corner): number {
  const least = Math.min(smaller(delay.rise, delay.fall, corner), delay.toZ[corner]);
  return addClass(table, delay.fall[corner], delay.rise[corner], delay.toZ[corner], least);
}

/** Class that stands for module paths, each of which is asked for when it is taken: 0 only where all of them are. */
function addLongest(table: DelayTable, paths: readonly PathDelay[], corner: Corner): number {
  const longest = Math.max(0, ...paths.flatMap(({ delays }) => delays.map((delay) => delay[corner])));
  return addClass(table, longest, longest, longest, longest);
}

/** Class of each operator node; 0 for everything that takes no time of its own. */
export function delayClassesOf(netlist: Netlist, set: DelaySet, table: DelayTable, corner: Corner): Uint16Array {
  const { nodes, explicitDelays } = netlist;
  const explicit = explicitDelays.map((delay) =>
    delay.paths === undefined ? addExplicit(table, delay, corner) : addLongest(table, delay.paths.flat(), corner),
  );
  const bySet = new Map(everySet(set).map((one) => [one, classesByOperator(one, table, corner)]));
  const classOf = (node: NodeId): number => bySet.get(setOfNode(set, node))?.[nodes.op[node]] ?? noDelay;
  const covered = explicitDelays.length > 0 ? coveredByDelay(netlist) : null;
  const classes = new Uint16Array(nodes.count);
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] === Op.delay) classes[node] = explicit[nodes.aux[node]];
    else if (covered === null || covered[node] === 0) classes[node] = classOf(node as NodeId);
  }
  return classes;
}

/**
 * What gives a memory's content takes no time here: a content is one number, and its bits must not move one by one. The
 * time is in the setup that the content's register asks for (`engine-storage-plan.ts`).
 */
function classesByOperator(set: DelaySet, table: DelayTable, corner: Corner): readonly number[] {
  return Object.values(Op).map((op) =>
    isMemoryOperator(op) && op !== Op.memoryRead ? noDelay : addDirectional(table, logicDelayOf(set, op), corner),
  );
}

function smaller(left: DelayTriple, right: DelayTriple, corner: Corner): number {
  return Math.min(left[corner], right[corner]);
}

function addClass(table: DelayTable, fall: number, rise: number, toZ: number, toX: number): number {
  const { ps } = table;
  const wanted = [fall, rise, toZ, toX];
  for (let entry = 0; entry < ps.length; entry += 4) {
    if (wanted.every((delay, level) => ps[entry + level] === delay)) return entry / 4;
  }
  ps.push(...wanted);
  return ps.length / 4 - 1;
}
