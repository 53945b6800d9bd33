// What windows ask of a netlist under a delay set: the plan of a timed run, the least and largest delay of everything to
// each level, and an order in which every cell and stored bit stands behind all that can make it move at one root edge.

import { visitStrongComponents } from '../netlist/strong-components';
import { createDelayTable, delayClassesOf } from './engine-delays';
import { listOf, packLists } from './engine-lists';
import { createPlan, type Plan, type PlanInput, SinkRole } from './engine-plan';
import { createStorageUnits, type StorageUnit } from './engine-storage-plan';

/** ps, by the level reached: 0, 1, z, x. */
export interface DelayBounds {
  readonly min: readonly number[];
  readonly max: readonly number[];
}

export interface WindowPlan extends Plan {
  readonly cellDelays: (cell: number) => DelayBounds;
  /** From the pin, and from an asynchronous control. */
  readonly unitDelays: (unit: number) => DelayBounds;
  readonly clearDelays: (unit: number) => DelayBounds;
  /** ps, largest; by unit. */
  readonly limits: readonly { readonly setup: number; readonly hold: number }[];
  /** By element: cells, then units from `cells.count` on. */
  readonly rank: Uint32Array;
  /** 1 where an element hears itself without a clock between: no order, and the typical run's is followed. */
  readonly isLooped: Uint8Array;
}

/** Yields between its parts. */
export function* createWindowPlan(input: Omit<PlanInput, 'corner'>): Generator<void, WindowPlan> {
  const plan = yield* createPlan({ ...input, corner: 'typ' });
  const least = boundsAt(input, plan, 'min');
  yield;
  const most = boundsAt(input, plan, 'max');
  yield;
  const between = boundsBetween(least, most);
  return {
    ...plan,
    cellDelays(cell) {
      const node = plan.cells.node[cell];
      if (plan.paths.has(cell)) return pathBounds(input, node, plan.cells.out[cell] - plan.bits.base[node]);
      return between(least.nodes[node], most.nodes[node]);
    },
    unitDelays: (unit) => between(least.units[unit].delay, most.units[unit].delay),
    clearDelays: (unit) => between(least.units[unit].clearDelay, most.units[unit].clearDelay),
    limits: most.units.map(({ windows: { hold, setup } }) => ({ hold, setup })),
    ...orderOf(plan),
  };
}

/** By delay class of either side, each pair made once. */
function boundsBetween(least: Bounds, most: Bounds): (least: number, most: number) => DelayBounds {
  const known = new Map<number, DelayBounds>();
  return (leastClass, mostClass) => {
    const key = leastClass * 2 ** 20 + mostClass;
    const found = known.get(key) ?? { min: levelsOf(least, leastClass), max: levelsOf(most, mostClass) };
    known.set(key, found);
    return found;
  };
}

interface Bounds {
  readonly nodes: Uint16Array;
  readonly units: readonly StorageUnit[];
  readonly ps: readonly number[];
}

function boundsAt(
  { delaySet, netlist, network }: Omit<PlanInput, 'corner'>,
  { bits }: Plan,
  corner: 'min' | 'max',
): Bounds {
  const table = createDelayTable();
  const nodes = delayClassesOf(netlist, delaySet, table, corner);
  return { nodes, units: createStorageUnits({ netlist, network, delaySet, corner }, bits, table), ps: table.ps };
}

function levelsOf({ ps }: Bounds, delayClass: number): readonly number[] {
  return ps.slice(4 * delayClass, 4 * delayClass + 4);
}

/** Of module paths whichever is taken: from the shortest to the longest of all. */
function pathBounds(
  { netlist: { explicitDelays, nodes } }: Pick<PlanInput, 'netlist'>,
  node: number,
  bit: number,
): DelayBounds {
  const all = (explicitDelays[nodes.aux[node]].paths?.[bit] ?? []).flatMap(({ delays }) => delays);
  const least = Math.min(...all.map(({ min }) => min));
  const most = Math.max(...all.map(({ max }) => max));
  return { min: [least, least, least, least], max: [most, most, most, most] };
}

/** What an element can make move at once, as a graph; a component stands before all that it reaches. */
function orderOf({ cells, readers, sinks, units }: Plan): Pick<WindowPlan, 'rank' | 'isLooped'> {
  const count = cells.count + units.length;
  const edges = packLists(count, (add) => {
    const addReaders = (element: number, from: number, width: number): void => {
      for (let bit = from; bit < from + width; bit++) {
        for (let entry = readers.first[bit]; entry < readers.first[bit + 1]; entry++)
          add(element, readers.items[entry]);
        for (const unit of heardAtOnce({ sinks, units }, bit)) add(element, cells.count + unit);
      }
    };
    for (let cell = 0; cell < cells.count; cell++) addReaders(cell, cells.out[cell], cells.width[cell]);
    for (const [unit, { base, width }] of units.entries()) addReaders(cells.count + unit, base, width);
  });
  const degree = Uint32Array.from({ length: count }, (_, element) => edges.first[element + 1] - edges.first[element]);
  const rank = new Uint32Array(count);
  const isLooped = new Uint8Array(count);
  let next = count;
  visitStrongComponents({ count, first: edges.first.subarray(0, count), degree, target: edges.items }, (component) => {
    for (const element of component) {
      rank[element] = --next;
      const own = listOf({ first: edges.first, arity: degree, pool: edges.items }, element);
      if (component.length > 1 || own.includes(element)) isLooped[element] = 1;
    }
  });
  return { rank, isLooped };
}

/** Units that a bit can make move: by pin, control or loaded value; of latches also by data. */
export function heardAtOnce({ sinks, units }: Pick<Plan, 'sinks' | 'units'>, bit: number): number[] {
  const found: number[] = [];
  for (let entry = sinks.first[bit]; entry < sinks.first[bit + 1]; entry++) {
    const unit = sinks.items[entry] >>> 2;
    if ((sinks.items[entry] & 3) === SinkRole.data && !units[unit].isLatch) continue;
    // Sinks stand in the order of their units.
    if (found[found.length - 1] !== unit) found.push(unit);
  }
  return found;
}
