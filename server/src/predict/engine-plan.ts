// Everything about a netlist under one delay set that a timed run asks for again and again: cells, stored bits, who reads
// what, in which order logic without delay settles. Made once per run, never changed.

import { everySet } from '../delays/own-delays';
import { Op } from '../netlist/operators';
import type { Drive } from './drive';
import { createDenseBits, type DenseBits, denseOf } from './engine-bits';
import { type Cells, createCells } from './engine-cells';
import { createDelayTable, delayClassesOf } from './engine-delays';
import { type Levels, levelCells } from './engine-levels';
import { type Lists, listOf, packLists } from './engine-lists';
import { type CellPaths, pathsOfCells } from './engine-paths';
import { createStorageUnits, type StorageInput, type StorageUnit } from './engine-storage-plan';

export interface Plan {
  readonly bits: DenseBits;
  readonly cells: Cells;
  readonly units: readonly StorageUnit[];
  /** Delay class by cell. */
  readonly cellDelay: Uint16Array;
  /** ps by 4 × class + level reached. */
  readonly delayPs: Float64Array;
  readonly paths: CellPaths;
  readonly levels: Levels;
  /** Dense bit → cells that read it. */
  readonly readers: Lists;
  /** Dense bit → 4 × unit + role, for what a stored bit hears at once (its pin, controls, loaded values, latch data). */
  readonly sinks: Lists;
  /** Dense bits that reach the data or a control of a stored bit without delay. */
  readonly feedsData: Uint8Array;
  /** Dense bits that read 1 while nothing drives them (definition 7). */
  readonly pulledUp: Uint8Array;
  /** Some stored bit or cell with delay can change without delay, so that an instant can have more than one step. */
  readonly mayStep: boolean;
}

export const SinkRole = { pin: 0, control: 1, value: 2, data: 3 } as const;

export interface PlanInput extends StorageInput {
  readonly drive: Drive;
}

/** Yields between its parts. */
export function* createPlan(input: PlanInput): Generator<void, Plan> {
  const { netlist, delaySet, corner } = input;
  const bits = createDenseBits(netlist);
  yield;
  const cells = createCells(netlist, bits);
  yield;
  const table = createDelayTable();
  const classes = delayClassesOf(netlist, delaySet, table, corner);
  const units = createStorageUnits(input, bits, table);
  const cellDelay = new Uint16Array(cells.count);
  const hasDelay = new Uint8Array(cells.count);
  for (let cell = 0; cell < cells.count; cell++) {
    cellDelay[cell] = classes[cells.node[cell]];
    hasDelay[cell] = cellDelay[cell] === 0 ? 0 : 1;
  }
  yield;
  const paths = pathsOfCells(netlist, bits, cells, corner);
  const readers = readersOf(cells, bits.count);
  yield;
  const levels = levelCells(cells, readers, hasDelay);
  yield;
  return {
    bits,
    cells,
    units,
    cellDelay,
    delayPs: Float64Array.from(table.ps),
    paths,
    levels,
    readers,
    sinks: sinksOf(
      units,
      bits.count,
      everySet(delaySet).some(({ hold }) => hold !== null && hold[corner] > 0),
    ),
    feedsData: findDataSources(cells, units, hasDelay, bits.count),
    pulledUp: findPulledUp(input, bits),
    mayStep:
      paths.size > 0 ||
      units.some(({ delay, clearDelay }) => canBeZero(table.ps, delay) || canBeZero(table.ps, clearDelay)) ||
      cellDelay.some((delay) => delay !== 0 && canBeZero(table.ps, delay)),
  };
}

function canBeZero(ps: readonly number[], delay: number): boolean {
  return ps.slice(4 * delay, 4 * delay + 4).includes(0);
}

function readersOf(cells: Cells, bitCount: number): Lists {
  return packLists(bitCount, (add) => {
    const seen = new Int32Array(bitCount).fill(-1);
    for (let cell = 0; cell < cells.count; cell++) {
      const end = cells.first[cell] + cells.arity[cell];
      for (let entry = cells.first[cell]; entry < end; entry++) {
        const bit = cells.pool[entry];
        if (seen[bit] === cell) continue;
        seen[bit] = cell;
        add(bit, cell);
      }
    }
  });
}

/** Registers hear their data only where the set states a hold time, which a later change may violate. */
function sinksOf(units: readonly StorageUnit[], bitCount: number, holdIsStated: boolean): Lists {
  return packLists(bitCount, (add) => {
    units.forEach((unit, index) => {
      add(unit.pin, 4 * index + SinkRole.pin);
      for (const control of unit.controls) {
        add(control.bit, 4 * index + SinkRole.control);
        for (const bit of control.value) add(bit, 4 * index + SinkRole.value);
      }
      if (!unit.isLatch && !holdIsStated) return;
      for (const bit of unit.data) add(bit, 4 * index + SinkRole.data);
    });
  });
}

function findDataSources(
  cells: Cells,
  units: readonly StorageUnit[],
  hasDelay: Uint8Array,
  bitCount: number,
): Uint8Array {
  const marks = new Uint8Array(bitCount);
  const pending: number[] = [];
  const mark = (bit: number): void => {
    if (marks[bit] === 1) return;
    marks[bit] = 1;
    pending.push(bit);
  };
  for (const { data, controls } of units) {
    for (const bit of data) mark(bit);
    for (const control of controls) {
      mark(control.bit);
      for (const bit of control.value) mark(bit);
    }
  }
  for (let bit = pending.pop(); bit !== undefined; bit = pending.pop()) {
    const driver = cells.driverOf[bit];
    if (driver < 0 || hasDelay[driver] === 1) continue;
    for (const operand of listOf(cells, driver)) mark(operand);
  }
  return marks;
}

/**
 * A pulled bit that meets drivers of the design on a net stays released itself, and the net gets the pull: otherwise the
 * pull would fight the drivers.
 */
function findPulledUp({ netlist: { nodes }, drive }: PlanInput, bits: DenseBits): Uint8Array {
  const pulledUp = new Uint8Array(bits.count);
  const pulls = new Set(drive.pulls.map(({ bit }) => denseOf(bits, bit)));
  if (pulls.size === 0) return pulledUp;
  const meeting = new Set<number>();
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.resolve) continue;
    for (const operand of listOf(nodes, node)) {
      for (let bit = 0; bit < nodes.width[node]; bit++) {
        const driver = bits.of(operand, bit);
        if (!pulls.has(driver)) continue;
        meeting.add(driver);
        pulledUp[bits.base[node] + bit] = 1;
      }
    }
  }
  for (const pulled of pulls) if (!meeting.has(pulled)) pulledUp[pulled] = 1;
  return pulledUp;
}
