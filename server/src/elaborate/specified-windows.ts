// Which windows of timing checks a register of the same module has around its clock: setup and hold of data that reaches
// it, recovery and removal of its asynchronous controls. Of several checks of one kind the narrowest counts, so that no
// value is taken for spoiled that a check would pass; the findings judge every check by itself.

import { bitKey } from '../netlist/bit-key';
import type { Bit, DelayTriple, InstanceId, Netlist, Register, RegisterId, TimingCheck } from '../netlist/netlist';
import { isSource } from '../netlist/operators';
import { operandsOfBit } from '../netlist/trace';
import { pinKey } from './pin-source';
import { leastOf, zero } from './triples';

export interface StatedWindows {
  readonly setup: DelayTriple | null;
  readonly hold: DelayTriple | null;
  readonly recovery: DelayTriple | null;
  readonly removal: DelayTriple | null;
}

/** Yields now and then. */
export function* registerWindows(
  netlist: Netlist,
  checks: readonly TimingCheck[],
): Generator<void, ReadonlyMap<RegisterId, StatedWindows>> {
  const windows = new Map<RegisterId, StatedWindows>();
  const byInstance = new Map<InstanceId, TimingCheck[]>();
  for (const check of checks) {
    if (!aboutRegisters.has(check.kind)) continue;
    const own = byInstance.get(check.instance) ?? [];
    own.push(check);
    byInstance.set(check.instance, own);
  }
  for (const register of netlist.registers) {
    if (register.id % 64 === 63) yield;
    const own = instancesAround(netlist, register.instance).flatMap((instance) => byInstance.get(instance) ?? []);
    if (own.length === 0) continue;
    const found = windowsOf(netlist, register, own);
    if (found !== null) windows.set(register.id, found);
  }
  return windows;
}

const aboutRegisters: ReadonlySet<string> = new Set(['setup', 'hold', 'setuphold', 'recovery', 'removal', 'recrem']);

function instancesAround({ instances }: Netlist, start: InstanceId): InstanceId[] {
  const around: InstanceId[] = [];
  for (let at: InstanceId | null = start; at !== null; at = instances[at].parent) around.push(at);
  return around;
}

function windowsOf(netlist: Netlist, register: Register, checks: readonly TimingCheck[]): StatedWindows | null {
  const clock = pinKey(netlist, register.clock);
  const controls = new Set(register.asynchronous.map(({ control }) => pinKey(netlist, control)));
  const heard = checks.length === 0 ? new Set<number>() : heardBy(netlist, register);
  const lists = { setup: [], hold: [], recovery: [], removal: [] } as Record<keyof StatedWindows, DelayTriple[]>;
  for (const { data, kind, limits, reference } of checks) {
    const keys = reference.bits.map((bit) => pinKey(netlist, bit));
    const others = (data?.bits ?? []).map((bit) => pinKey(netlist, bit));
    const isAboutControl = kind === 'recovery' || kind === 'removal' || kind === 'recrem';
    const fits = isAboutControl
      ? keys.some((key) => controls.has(key)) && others.includes(clock)
      : keys.includes(clock) && others.some((key) => heard.has(key));
    if (!fits) continue;
    const [first, second] = limits.map(notNegative);
    if (kind === 'setuphold') lists.hold.push(second);
    if (kind === 'recrem') lists.removal.push(second);
    lists[windowOf[kind] ?? 'setup'].push(first);
  }
  if (Object.values(lists).every(({ length }) => length === 0)) return null;
  const least = (triples: readonly DelayTriple[]) => (triples.length === 0 ? null : leastOf(triples));
  return {
    setup: least(lists.setup),
    hold: least(lists.hold),
    recovery: least(lists.recovery),
    removal: least(lists.removal),
  };
}

const windowOf: Partial<Record<TimingCheck['kind'], keyof StatedWindows>> = {
  setup: 'setup',
  setuphold: 'setup',
  hold: 'hold',
  recovery: 'recovery',
  recrem: 'recovery',
  removal: 'removal',
};

function notNegative({ max, min, typ }: DelayTriple): DelayTriple {
  const [low, middle, high] = [min, typ, max].map((time) => Math.max(0, time));
  return low === middle && middle === high && low === 0 ? zero : { min: low, typ: middle, max: high };
}

/** Pins that the register's data is made of, and everything on the way back to them. */
function heardBy(netlist: Netlist, { data, width }: Register): ReadonlySet<number> {
  const { nodes } = netlist;
  const seen = new Set<number>();
  const pending: Bit[] = Array.from({ length: width }, (_, bit) => ({ node: data, bit }));
  const keys = new Set<number>();
  for (let bit = pending.pop(); bit !== undefined && seen.size < mostBits; bit = pending.pop()) {
    if (seen.has(bitKey(bit))) continue;
    seen.add(bitKey(bit));
    keys.add(pinKey(netlist, bit));
    if (!isSource(nodes.op[bit.node])) pending.push(...operandsOfBit(nodes, bit));
  }
  return keys;
}

/** A cell has few; a design that states checks for a whole chip is not walked without end. */
const mostBits = 20_000;
