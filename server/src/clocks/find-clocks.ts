// Who is clocked by what, from structure alone (definitions 1 to 10 and 14). Promises one entry per register and latch
// in order of id, every other list in order of place, and the same answer for the same netlist. No numbers over time.

import { bitKey } from '../netlist/bit-key';
import type { Netlist, RegisterId } from '../netlist/netlist';
import { findChains } from './chains';
import { clockPins, type ListedClock, listClocks, listRoots } from './clock-list';
import { createContext } from './context';
import { findCrossings } from './crossings';
import { type DomainList, listDomains } from './domains';
import { rootEdgeOf } from './edge-set';
import { gateFactsOf } from './gate-facts';
import { findInputUses } from './input-uses';
import type { Clock, ClockId, ClockNetwork, ClockOptions, Domain, RegisterClocking } from './network';
import { createPace } from './pace';
import { clockingOf, type Found, latchClockingOf, rootIndices, soleRoot } from './register-clocking';
import { findRejoins } from './rejoins';
import { findResets } from './reset-uses';
import { guardsOfSwitches } from './switch-guards';
import { findSynchronousResets } from './synchronous-resets';
import { createClockWalk } from './walk-back';

/** Yields after a fixed amount of work. Options name signals as the report does; none stated is every list empty. */
export function* findClocks(netlist: Netlist, options: ClockOptions): Generator<void, ClockNetwork> {
  const context = createContext(netlist, options);
  const walk = createClockWalk(context);
  const pace = createPace();
  const pins = clockPins(context);
  for (const { bit } of pins) {
    walk(bit);
    if (pace.spend(10)) yield;
  }
  const listed = yield* listClocks(context, walk, pins, pace);
  const clockIds = new Map(listed.map((clock, index) => [bitKey(clock.walk.bit), index as ClockId]));
  const roots = listRoots(context, listed);
  const rootIds = new Map(roots.map(({ bit }, index) => [bitKey(bit), index]));
  const domains = listDomains(options, rootIds, listed);
  const found: Found = { context, walk, rootIds, domains, clockIds };
  yield;

  const clocks: Clock[] = [];
  for (const clock of listed) {
    clocks.push(clockOf(found, listed, clock));
    if (pace.spend(50)) yield;
  }
  const resets = yield* findSynchronousResets(context, pace);
  const registers: RegisterClocking[] = [];
  for (const register of netlist.registers) {
    registers.push(clockingOf(found, register, resets[register.id]));
    if (pace.spend(10)) yield;
  }
  const latches = netlist.latches.map((latch) => latchClockingOf(found, latch));
  const guards = guardsOfSwitches(context, clocks);
  const clocked = { context, domains, registers, latches, guards };
  const crossings = yield* findCrossings(clocked, pace);
  return {
    roots,
    clocks,
    registers,
    latches,
    domains: withRegisters(domains, registers),
    chains: yield* findChains(context, walk, registers, pace),
    crossings,
    rejoins: yield* findRejoins(clocked, crossings, pace),
    inputs: yield* findInputUses(clocked, pace),
    resets: findResets(context, registers),
  };
}

function clockOf(found: Found, listed: readonly ListedClock[], clock: ListedClock): Clock {
  const { walk, name, place, from } = clock;
  const roots = rootIndices(found, walk);
  const root = soleRoot(walk, roots);
  const origins = from.flatMap((bit) => found.clockIds.get(bitKey(bit)) ?? []);
  return {
    id: found.clockIds.get(bitKey(walk.bit)) as ClockId,
    bit: walk.bit,
    name,
    kind: walk.kind,
    from: origins,
    fromNames: origins.map((origin) => listed[origin].name),
    roots,
    root,
    stage: walk.stage,
    risesOn: root === null ? null : rootEdgeOf(walk.rises),
    domain: found.domains.idOf(walk.domain),
    sourceRegisters: walk.sources,
    gate: gateFactsOf(found, clock),
    candidates: clock.parts.flatMap(({ gate }) => gate?.operands.candidates ?? []),
    assumedFromName:
      clock.parts.find(({ gate }) => gate?.operands.assumedFromName)?.gate?.operands.assumedFromName ?? null,
    place,
  };
}

function withRegisters({ domains }: DomainList, registers: readonly RegisterClocking[]): Domain[] {
  const members = domains.map((): RegisterId[] => []);
  for (const { register, domain } of registers) if (domain !== null) members[domain].push(register);
  return domains.map((domain, index) => ({ ...domain, registers: members[index] }));
}
