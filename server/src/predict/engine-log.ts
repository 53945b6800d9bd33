// The record of changes as it grows, and the finished waves over it.

import type { Netlist } from '../netlist/netlist';
import { type DenseBits, denseOf } from './engine-bits';
import { packLists } from './engine-lists';
import type { Changes, Doubt, Level, Waves } from './waves';

export interface ChangeLog {
  readonly count: number;
  /** Dense bit of each change. The arrays are longer than `count` and are replaced as they grow. */
  readonly bit: Uint32Array;
  readonly time: Float64Array;
  readonly level: Uint8Array;
  readonly cause: Int32Array;
  readonly kind: Uint8Array;
  /** Gives the index of the new change. */
  push(time: number, bit: number, level: number, cause: number, kind: number): number;
  /** Forgets the changes from `count` on. */
  cutTo(count: number): void;
}

export function createChangeLog(): ChangeLog {
  const log = {
    count: 0,
    bit: new Uint32Array(1024),
    time: new Float64Array(1024),
    level: new Uint8Array(1024),
    cause: new Int32Array(1024),
    kind: new Uint8Array(1024),
    push(time: number, bit: number, level: number, cause: number, kind: number): number {
      const index = log.count++;
      if (index === log.bit.length) growLog(log);
      log.bit[index] = bit;
      log.time[index] = time;
      log.level[index] = level;
      log.cause[index] = cause;
      log.kind[index] = kind;
      return index;
    },
    cutTo(count: number): void {
      log.count = count;
    },
  };
  return log;
}

interface LogArrays {
  bit: Uint32Array;
  time: Float64Array;
  level: Uint8Array;
  cause: Int32Array;
  kind: Uint8Array;
}

function growLog(log: LogArrays): void {
  const length = 2 * log.bit.length;
  log.bit = copied(log.bit, new Uint32Array(length));
  log.time = copied(log.time, new Float64Array(length));
  log.level = copied(log.level, new Uint8Array(length));
  log.cause = copied(log.cause, new Int32Array(length));
  log.kind = copied(log.kind, new Uint8Array(length));
}

function copied<Column extends Uint8Array | Uint32Array | Int32Array | Float64Array>(from: Column, to: Column): Column {
  to.set(from);
  return to;
}

export interface FinishedRun {
  readonly netlist: Netlist;
  readonly end: number;
  readonly log: ChangeLog;
  readonly bits: DenseBits;
  /** Level at time 0 by dense bit. */
  readonly start: Uint8Array;
  readonly cut: Waves['cut'];
  readonly doubts: readonly Doubt[];
}

export function finishWaves({ netlist, end, log, bits, start, cut, doubts }: FinishedRun): Waves {
  const byBit = indexByBit(log, bits.count);
  return {
    netlist,
    end,
    changes: changesOf(log, bits),
    startOf: (bit) => start[denseOf(bits, bit)] as Level,
    changesOf(bit) {
      const dense = denseOf(bits, bit);
      const { first, items } = byBit();
      return items.subarray(first[dense], first[dense + 1]);
    },
    cut,
    doubts,
  };
}

function changesOf(log: ChangeLog, bits: DenseBits): Changes {
  const { count } = log;
  const node = new Uint32Array(count);
  const bit = new Uint32Array(count);
  for (let index = 0; index < count; index++) {
    node[index] = bits.nodeOf[log.bit[index]];
    bit[index] = bits.bitOf[log.bit[index]];
  }
  return {
    count,
    time: log.time.slice(0, count),
    node,
    bit,
    value: log.level.slice(0, count),
    cause: log.cause.slice(0, count),
    kind: log.kind.slice(0, count),
  };
}

/** Made when first asked for. */
function indexByBit(log: ChangeLog, bitCount: number) {
  let lists: ReturnType<typeof packLists> | null = null;
  return () => {
    lists ??= packLists(bitCount, (add) => {
      for (let index = 0; index < log.count; index++) add(log.bit[index], index);
    });
    return lists;
  };
}
