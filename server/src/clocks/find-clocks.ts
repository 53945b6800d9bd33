// Who is clocked by what, from structure alone (definitions 1 to 10 and 14). Promises one entry per register and latch
// in order of id, every other list in order of place, and the same answer for the same netlist. No numbers over time.

import { bitKey } from '../netlist/bit-key';
import type { Bit, LatchId, Netlist, Register, RegisterId } from '../netlist/netlist';
import { findChains } from './chains';
import { clockPins, type ListedClock, listClocks, listRoots } from './clock-list';
import { type Context, createContext, sourceOf } from './context';
import { type DomainList, listDomains } from './domains';
import { rootEdgeOf } from './edge-set';
import type { MemoWalk } from './memo-walk';
import type {
  Clock,
  ClockId,
  ClockNetwork,
  ClockOptions,
  Domain,
  LatchClocking,
  RegisterClocking,
  Root,
} from './network';
import { createPace } from './pace';
import { isSelfDriven } from './self-driven';
import { type ClockWalk, createClockWalk, edgesOfPin } from './walk-back';

/** Yields after a fixed amount of work. Options name signals as the report does; none stated is every list empty. */
export function* findClocks(netlist: Netlist, options: ClockOptions): Generator<void, ClockNetwork> {
  const context = createContext(netlist, options);
  const walk = createClockWalk(context);
  const pace = createPace();
  for (const { bit } of clockPins(context)) {
    walk(bit);
    if (pace.spend(1)) yield;
  }
  const listed = listClocks(context, walk);
  const roots = listRoots(context, listed);
  const domains = listDomains(options, roots, listed);
  const found: Found = { context, walk, listed, roots, domains };
  const ids = new Map(listed.map((clock, index) => [bitKey(clock.walk.bit), index as ClockId]));
  const registers: RegisterClocking[] = [];
  for (const register of netlist.registers) {
    registers.push(clockingOf(found, ids, register));
    if (pace.spend(10)) yield;
  }
  return {
    roots,
    clocks: listed.map((clock, index) => clockOf(found, ids, clock, index as ClockId)),
    registers,
    latches: netlist.latches.map(({ id }) => latchClockingOf(found, ids, id)),
    domains: withRegisters(domains, registers),
    chains: findChains(context, walk, registers),
    crossings: [],
    resets: [],
  };
}

/** What the walks back gave, before it is put into the network's words. */
interface Found {
  readonly context: Context;
  readonly walk: MemoWalk<ClockWalk>;
  readonly listed: readonly ListedClock[];
  readonly roots: readonly Root[];
  readonly domains: DomainList;
}

type ClockIds = ReadonlyMap<number, ClockId>;

function clockOf({ roots, domains, listed }: Found, ids: ClockIds, clock: ListedClock, id: ClockId): Clock {
  const { walk, name, place, from } = clock;
  const indices = rootIndices(roots, walk);
  const origins = from.flatMap((bit) => ids.get(bitKey(bit)) ?? []);
  return {
    id,
    bit: walk.bit,
    name,
    kind: walk.kind,
    from: origins,
    fromNames: origins.map((origin) => listed[origin].name),
    roots: indices,
    root: soleRoot(walk, indices),
    stage: walk.stage,
    risesOn: soleRoot(walk, indices) === null ? null : rootEdgeOf(walk.rises),
    domain: domains.idOf(walk.domain),
    sourceRegisters: walk.sources,
    gate: null,
    candidates: walk.gate?.operands.candidates ?? [],
    assumedFromName: walk.gate?.operands.assumedFromName ?? null,
    place,
  };
}

function rootIndices(roots: readonly Root[], walk: ClockWalk): number[] {
  const keys = new Set(walk.roots);
  return roots.flatMap(({ bit }, index) => (keys.has(bitKey(bit)) ? [index] : []));
}

function soleRoot(walk: ClockWalk, indices: readonly number[]): number | null {
  return walk.isOpen || indices.length !== 1 ? null : indices[0];
}

function clockingOf(found: Found, ids: ClockIds, register: Register): RegisterClocking {
  const clock = walkOfPin(found, register.clock);
  const roots = rootIndices(found.roots, clock);
  const root = soleRoot(clock, roots);
  const edge = rootEdgeOf(edgesOfPin(clock, register.edge));
  return {
    register: register.id,
    clock: clockIdOf(ids, clock),
    edge: register.edge,
    root: root === null || edge === null ? null : { root, edge },
    roots,
    domain: found.domains.idOf(clock.domain),
    stage: clock.stage + 1,
    asynchronous: [],
    synchronous: [],
    enable: null,
    selfDriven: isSelfDriven(found.context, register),
  };
}

function walkOfPin({ context, walk }: Found, pin: Bit): ClockWalk {
  return walk(sourceOf(context, pin));
}

function clockIdOf(ids: ClockIds, clock: ClockWalk): ClockId {
  return ids.get(bitKey(clock.bit)) as ClockId;
}

function latchClockingOf(found: Found, ids: ClockIds, id: LatchId): LatchClocking {
  const latch = found.context.netlist.latches[id];
  const gate = walkOfPin(found, latch.gate);
  return {
    latch: id,
    gate: clockIdOf(ids, gate),
    active: latch.active,
    root: soleRoot(gate, rootIndices(found.roots, gate)),
    domain: found.domains.idOf(gate.domain),
    intended: latch.flavor !== 'always_comb' && !(latch.flavor === 'always' && latch.othersComplete),
  };
}

function withRegisters({ domains }: DomainList, registers: readonly RegisterClocking[]): Domain[] {
  const members = domains.map((): RegisterId[] => []);
  for (const { register, domain } of registers) if (domain !== null) members[domain].push(register);
  return domains.map((domain, index) => ({ ...domain, registers: members[index] }));
}
