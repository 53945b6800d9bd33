// Registers and latches over dense bits, in one numbering: registers by id, then latches by id. A latch is a register
// whose active edge is the closing of its gate and which passes its data on while the gate is open.

import type { ClockNetwork } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import { setOfLatch, setOfRegister } from '../delays/own-delays';
import { clockToQOf, logicDelayOf } from '../delays/stage-delays';
import type { Corner } from '../delays/triple';
import type { MemoryContents } from '../netlist/memory-contents';
import { type AsynchronousControl, contentsOf, type Netlist, type NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { type DenseBits, denseOf } from './engine-bits';
import { addDirectional, addEven, addExplicit, type DelayTable } from './engine-delays';

export interface Control {
  readonly bit: number;
  readonly activeLevel: 0 | 1;
  /** Dense bits of the loaded value, least significant first. */
  readonly value: Uint32Array;
}

export interface StorageUnit {
  readonly node: NodeId;
  readonly isLatch: boolean;
  /** Dense number of its least significant output bit. */
  readonly base: number;
  readonly width: number;
  /** Dense number of the clock or gate. */
  readonly pin: number;
  /** Level of the pin after the edge that captures. For a latch: the level that closes it. */
  readonly captureLevel: 0 | 1;
  readonly data: Uint32Array;
  /** In priority order. */
  readonly controls: readonly Control[];
  /** Delay class from the pin, and from an asynchronous control. */
  readonly delay: number;
  readonly clearDelay: number;
  readonly windows: Windows;
  /** Of a memory's content: its bits are one number, merged and taken as a whole. */
  readonly contents: MemoryContents | null;
}

/** ps; what is not stated is 0. */
export interface Windows {
  readonly setup: number;
  readonly hold: number;
  readonly recovery: number;
  readonly removal: number;
  /** Least clock period of the part; null where not published. */
  readonly period: number | null;
}

export interface StorageInput {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly delaySet: DelaySet;
  readonly corner: Corner;
}

export function createStorageUnits(
  { netlist, network, delaySet, corner }: StorageInput,
  bits: DenseBits,
  table: DelayTable,
): readonly StorageUnit[] {
  const windowsOf = createWindows(corner);
  const registers = netlist.registers.map((register): StorageUnit => {
    const contents = contentsOf(netlist, register);
    const add = contents === null ? addDirectional : addEven;
    const explicit = register.delay < 0 ? null : netlist.explicitDelays[register.delay];
    const written =
      explicit && (contents === null ? addExplicit(table, explicit, corner) : add(table, explicit, corner));
    const set = setOfRegister(delaySet, register.id);
    const stage = network.registers[register.id]?.stage ?? 1;
    return {
      node: register.node,
      isLatch: false,
      base: bits.base[register.node],
      width: register.width,
      pin: denseOf(bits, register.clock),
      captureLevel: register.edge === 'rising' ? 1 : 0,
      data: wordOf(bits, register.data, register.width),
      controls: register.asynchronous.map((control) => controlOf(bits, control, register.width)),
      delay: written ?? add(table, clockToQOf(set, stage), corner),
      clearDelay: written ?? add(table, set.clear, corner),
      windows: contents === null ? windowsOf(set) : withWriting(windowsOf(set), set, corner),
      contents,
    };
  });
  const latches = netlist.latches.map((latch): StorageUnit => {
    const set = setOfLatch(delaySet, latch.id);
    const contents = contentsOf(netlist, latch);
    const add = contents === null ? addDirectional : addEven;
    return {
      node: latch.node,
      isLatch: true,
      base: bits.base[latch.node],
      width: latch.width,
      pin: denseOf(bits, latch.gate),
      captureLevel: latch.active === 'high' ? 0 : 1,
      data: wordOf(bits, latch.data, latch.width),
      controls: latch.asynchronous.map((control) => controlOf(bits, control, latch.width)),
      delay: add(table, set.latch, corner),
      clearDelay: add(table, set.clear, corner),
      windows: windowsOf(set),
      contents,
    };
  });
  return [...registers, ...latches];
}

/** One object per set, so that most units share one. */
function createWindows(corner: Corner): (set: DelaySet) => Windows {
  const known = new Map<DelaySet, Windows>();
  return (set) => {
    const found = known.get(set) ?? {
      setup: set.setup?.[corner] ?? 0,
      hold: set.hold?.[corner] ?? 0,
      recovery: set.recovery?.[corner] ?? 0,
      removal: set.removal?.[corner] ?? 0,
      period: set.period === null ? null : Math.floor(set.period[corner]),
    };
    known.set(set, found);
    return found;
  };
}

/** The address and the enable of a write pass its operators before they meet the setup time. */
function withWriting(windows: Windows, set: DelaySet, corner: Corner): Windows {
  const passed = [Op.memoryWrite, Op.memoryPick].map((op) => logicDelayOf(set, op));
  const time = passed.reduce((sum, { rise, fall }) => sum + Math.max(rise[corner], fall[corner]), 0);
  return { ...windows, setup: windows.setup + time };
}

function controlOf(bits: DenseBits, { control, active, value }: AsynchronousControl, width: number): Control {
  return { bit: denseOf(bits, control), activeLevel: active === 'high' ? 1 : 0, value: wordOf(bits, value, width) };
}

function wordOf(bits: DenseBits, node: NodeId, width: number): Uint32Array {
  return Uint32Array.from({ length: width }, (_, bit) => bits.of(node, bit));
}
