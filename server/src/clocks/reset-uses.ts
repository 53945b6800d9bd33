// Who is reset by what: one entry per reset bit, active level and kind. A release is synchronized where flip-flops of
// the resetting domain let go, and raw where it can come at any time (definitions 14 and 36).

import type { Bit, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { placeOfBit } from './clock-list';
import { type Context, opOf, sameBit, sourceOf } from './context';
import { launchesOf } from './launches';
import { comparePlaces, type ControlUse, type DomainId, type RegisterClocking, type ResetUse } from './network';
import { peel } from './peel';
import { chainBehind, isResetSynchronizer, isSynchronizedPort, registerBitOf } from './synchronizers';
import { resetKey } from './synchronous-resets';

interface Group {
  readonly use: ControlUse;
  readonly kind: ResetUse['kind'];
  readonly registers: RegisterId[];
}

export function findResets(context: Context, registers: readonly RegisterClocking[]): ResetUse[] {
  const groups = new Map<string, Group>();
  for (const { register, asynchronous, synchronous } of registers) {
    for (const use of asynchronous) join(groups, 'asynchronous', use, register);
    for (const use of synchronous) join(groups, 'synchronous', use, register);
  }
  return [...groups.values()]
    .map((group) => resetUse(context, registers, group))
    .sort((left, right) => comparePlaces(left.place, right.place));
}

function join(groups: Map<string, Group>, kind: Group['kind'], use: ControlUse, register: RegisterId): void {
  const key = `${kind} ${resetKey(use)}`;
  const group = groups.get(key);
  if (group === undefined) groups.set(key, { use, kind, registers: [register] });
  else if (group.registers[group.registers.length - 1] !== register) group.registers.push(register);
}

function resetUse(context: Context, clockings: readonly RegisterClocking[], group: Group): ResetUse {
  const { use, kind, registers } = group;
  const domains = new Set(registers.map((register) => clockings[register].domain).filter((domain) => domain !== null));
  return {
    bit: use.bit,
    name: use.name,
    active: use.active,
    kind,
    release: isSynchronized(context, clockings, group) ? 'synchronized' : 'raw',
    launchedBy: launchesOf(context, use.bit).registers,
    registers,
    domains: [...domains].sort((left, right) => left - right),
    place: placeOfBit(context, use.bit),
  };
}

function isSynchronized(context: Context, clockings: readonly RegisterClocking[], group: Group): boolean {
  const { use, kind, registers } = group;
  if (kind === 'synchronous') return isSynchronizedPort(context, use.bit);
  return releasesInStep(context, clockings, use.bit, registers) || resetsOnlySynchronizers(context, use.bit, registers);
}

/** Every register that the bit is computed from lets go at an edge of the one domain that it resets. */
function releasesInStep(
  context: Context,
  clockings: readonly RegisterClocking[],
  bit: Bit,
  registers: readonly RegisterId[],
): boolean {
  const { registers: launching, latches, outside } = launchesOf(context, bit);
  if (launching.length === 0 || latches.length > 0 || outside.length > 0) return false;
  const domain = (register: RegisterId): DomainId | null => clockings[register].domain;
  const first = domain(launching[0]);
  if (first === null || ![...launching, ...registers].every((register) => domain(register) === first)) return false;
  return letsGoInStep(context, peel(context, bit).bit) || launching.every((id) => isNeverForced(context, id));
}

/** A register without asynchronous control moves only with its clock; one with it must be a reset synchronizer's. */
function letsGoInStep(context: Context, source: Bit): boolean {
  if (opOf(context, source) !== Op.register) return false;
  const found = registerBitOf(context, source);
  return found !== null && (isNeverForced(context, found.register.id) || isResetSynchronizer(context, source));
}

function isNeverForced(context: Context, register: RegisterId): boolean {
  return context.netlist.registers[register].asynchronous.length === 0;
}

/** A raw reset that clears nothing but the flip-flops that synchronize its release. */
function resetsOnlySynchronizers(context: Context, reset: Bit, registers: readonly RegisterId[]): boolean {
  const { netlist } = context;
  const inChains = new Set<RegisterId>();
  for (const id of registers) {
    const { node, width } = netlist.registers[id];
    for (let bit = 0; bit < width; bit++) {
      if (!isResetSynchronizer(context, { node, bit })) continue;
      for (const { register } of chainBehind(context, { node, bit }).flops) inChains.add(register.id);
    }
  }
  const resets = (id: RegisterId) =>
    netlist.registers[id].asynchronous.some(({ control }) => sameBit(sourceOf(context, control), reset));
  return registers.every((id) => inChains.has(id) && resets(id));
}
