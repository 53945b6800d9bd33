// What changes during a timed run: levels now and before the instant, what is stored inside registers, what is scheduled,
// the record so far. One mutable object, made by `createState`, known only to the engine's files.

import type { Netlist } from '../netlist/netlist';
import { widestCell } from './engine-cells';
import { type ChangeLog, createChangeLog } from './engine-log';
import type { Plan } from './engine-plan';
import { createEventQueue, type EventQueue } from './engine-queue';
import type { Doubt } from './waves';

export interface EngineState {
  readonly netlist: Netlist;
  readonly plan: Plan;
  readonly log: ChangeLog;
  readonly queue: EventQueue;
  readonly doubts: Doubt[];
  /** ps */
  now: number;
  /** Number of changes before this instant. */
  instantStart: number;
  /** Step inside the instant, counted over the whole run. */
  step: number;

  // ---- by dense bit
  readonly level: Uint8Array;
  /** Level before this instant. */
  readonly prior: Uint8Array;
  /** Level before the latest change, and that change's index (-1: none). */
  readonly before: Uint8Array;
  readonly latest: Int32Array;
  /** For bits of registers and latches: the level inside, which the output follows. */
  readonly stored: Uint8Array;
  /** For the same: the scheduled slot that comes last, -1 if none. */
  readonly lastSlot: Int32Array;

  // ---- by slot of the queue: slot b < number of bits is dense bit b, later ones belong to registers
  readonly slots: Slots;

  /** Changes without delay that await the next step. */
  readonly immediate: Immediate;
  readonly cellQueue: CellQueue;
  readonly marked: MarkedUnits;
  /** By unit: ps of its latest active edge, -1 if none. */
  readonly lastEdge: Float64Array;
  /** By unit: ps of the latest active edge that took data over or may have, -1 where a control ruled at the last one. */
  readonly lastSample: Float64Array;
  /** For the output levels of one cell, and for what one unit captures. */
  readonly scratch: Uint8Array;
  readonly captured: Uint8Array;

  // ---- for samples in question
  readonly cones: Map<number, Cone>;
  readonly race: RaceView;
  /** Samples of this instant, kept where a later step could put them in doubt. */
  readonly samples: Sample[];
  readonly relations: ClockRelations;
  /** Decides samples between unrelated clocks. */
  readonly seed: number;
  /** Instants and changes so far. */
  work: number;
}

/** What a unit's data and controls are computed from without delay. */
export interface Cone {
  /** Cells without delay, operands before readers. */
  readonly cells: readonly number[];
  /** Dense bits where the walk back ends: stored bits, ports, outputs of cells with delay. */
  readonly leaves: ReadonlySet<number>;
}

/** Changes in no fixed order with one clock edge, kept until the instant has more changes. */
export interface RaceView {
  origin: number;
  changeCount: number;
  readonly leaves: number[];
  caused: Uint8Array;
}

/** Which clocks have a fixed relation. */
export interface ClockRelations {
  /** Dense bit of a driven clock → its domain. */
  readonly domainOf: ReadonlyMap<number, number>;
  /** Pairs of domains, one direction or both. */
  readonly related: ReadonlySet<string>;
}

export interface Sample {
  readonly unit: number;
  readonly pinChange: number;
  /** How many changes there were when it was judged. */
  changeCount: number;
  /** A doubt has been recorded for it. */
  isDoubted: boolean;
  /** Stored before the edge, and taken at it. */
  readonly old: Uint8Array;
  readonly taken: Uint8Array;
}

/** Pending changes; columns grow as registers need more slots. */
export interface Slots {
  count: number;
  bit: Uint32Array;
  level: Uint8Array;
  cause: Int32Array;
  kind: Uint8Array;
  /** Slots of one register bit in order of time. */
  earlier: Int32Array;
  later: Int32Array;
  readonly free: number[];
}

/** The arrays keep their length from step to step; `count` says how much of them is meant. */
export interface Immediate {
  count: number;
  readonly bit: number[];
  readonly level: number[];
  readonly cause: number[];
  readonly kind: number[];
}

/** Cells to evaluate, a list per level. */
export interface CellQueue {
  readonly head: Int32Array;
  readonly next: Int32Array;
  readonly queued: Uint8Array;
  size: number;
  lowest: number;
}

/** Units that something they hear has changed in this step, with the level of their pin before it. */
export interface MarkedUnits {
  readonly list: number[];
  readonly isMarked: Uint8Array;
  readonly pinStep: Int32Array;
  readonly pinBefore: Uint8Array;
}

export interface StateOptions {
  readonly relations: ClockRelations;
  readonly seed: number;
}

export function createState(
  netlist: Netlist,
  plan: Plan,
  start: Uint8Array,
  { relations, seed }: StateOptions,
): EngineState {
  const { bits, cells, units, levels } = plan;
  return {
    netlist,
    plan,
    log: createChangeLog(),
    queue: createEventQueue(bits.count),
    doubts: [],
    now: 0,
    instantStart: 0,
    step: 0,
    level: start.slice(),
    prior: start.slice(),
    before: start.slice(),
    latest: new Int32Array(bits.count).fill(-1),
    stored: start.slice(),
    lastSlot: new Int32Array(bits.count).fill(-1),
    slots: createSlots(bits.count),
    immediate: { count: 0, bit: [], level: [], cause: [], kind: [] },
    cellQueue: {
      head: new Int32Array(levels.top + 2).fill(-1),
      next: new Int32Array(cells.count),
      queued: new Uint8Array(cells.count),
      size: 0,
      lowest: 0,
    },
    marked: {
      list: [],
      isMarked: new Uint8Array(units.length),
      pinStep: new Int32Array(units.length).fill(-1),
      pinBefore: new Uint8Array(units.length),
    },
    lastEdge: new Float64Array(units.length).fill(-1),
    lastSample: new Float64Array(units.length).fill(-1),
    scratch: new Uint8Array(widestCell(cells)),
    captured: new Uint8Array(units.reduce((widest, { width }) => Math.max(widest, width), 1)),
    cones: new Map(),
    race: { origin: -1, changeCount: -1, leaves: [], caused: new Uint8Array(64) },
    samples: [],
    relations,
    seed,
    work: 0,
  };
}

function createSlots(count: number): Slots {
  return {
    count,
    bit: Uint32Array.from({ length: count }, (_, slot) => slot),
    level: new Uint8Array(count),
    cause: new Int32Array(count),
    kind: new Uint8Array(count),
    earlier: new Int32Array(count).fill(-1),
    later: new Int32Array(count).fill(-1),
    free: [],
  };
}
