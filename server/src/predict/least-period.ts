// The least period of a root clock at which data that leaves at one edge is there, with its setup, before the edge that
// takes it (definition 29: distance + δ − (clock-to-output + path) − setup is not below 0). Over the longest path between
// every two registers, whether or not it can be taken; a register's data, its enables among it, but no port, no memory
// that is written, and no wire: those are in no delay set. The least clock period that a part's sheet states counts too.
// Where the set says nothing of logic, the delays of the text may still say all there is on every way; where they say it
// of some, the period is not answerable, but a way that is too long by them is too long.

import { createMemoWalk, type MemoWalk } from '../clocks/memo-walk';
import type { Domain, RegisterClocking, RootEdge, Why } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import { everySet, setOfNode, setOfRegister } from '../delays/own-delays';
import { logicClassOf, logicDelayOf } from '../delays/stage-delays';
import { bitKey } from '../netlist/bit-key';
import type { Bit, Netlist, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';
import type { Arrivals } from './arrival';
import { type OrderContext, unsharedPaths } from './arrival-order';
import { coveredByDelay } from './covered-nodes';
import type { Drive, DriveClock } from './drive';
import type { ClockTiming, LeastPeriod } from './prediction';

export interface LeastPeriodContext extends OrderContext {
  readonly drive: Drive;
  /** By clock id. */
  readonly clocks: readonly ClockTiming[];
}

/** By domain id. Yields after each domain. */
export function* leastPeriodsOf(context: LeastPeriodContext): Generator<void, readonly LeastPeriod[]> {
  const { delaySet, netlist, network } = context;
  const hasLogic = !everySet(delaySet).every(({ logic }) => logic === null);
  if (!hasLogic && netlist.explicitDelays.length === 0) {
    return network.domains.map(() => unanswered({ reason: 'period-not-answerable', args: {} }));
  }
  const launches = createLaunches(context);
  const found: LeastPeriod[] = [];
  for (const domain of network.domains) {
    found.push(leastPeriodOf({ ...context, hasLogic, launches }, domain));
    yield;
  }
  return found;
}

/** Registers that launch data, grouped: only the slowest of those that share everything else is of interest. */
interface Launch {
  readonly from: RegisterId;
  /** From the clock's arrival, longest: clock-to-output and the logic so far, ps. */
  readonly delay: number;
  /** The text states a delay on the way. */
  readonly isWritten: boolean;
  /** Neither text nor set says how long some operator on a way takes. */
  readonly isOpen: boolean;
}

/** By group; a latch on the way stands for what is not known. */
type Launches = ReadonlyMap<string, Launch> | 'latch';

interface DomainContext extends LeastPeriodContext {
  readonly launches: MemoWalk<Launches>;
  /** Whether the delay set says anything of logic. */
  readonly hasLogic: boolean;
}

function leastPeriodOf(context: DomainContext, domain: Domain): LeastPeriod {
  const { drive, network } = context;
  const clock = domain.roots.length === 1 ? drive.clocks.find(({ root }) => root === domain.roots[0]) : undefined;
  if (clock === undefined) return unanswered({ reason: 'period-without-clock', args: {} });
  let worst: Needed | null = null;
  let written: Needed | null = null;
  let isOpen = false;
  for (const register of domain.registers) {
    const heard = heardBy(context, register);
    if (heard === 'latch') return unanswered({ reason: 'period-through-latch', args: {} });
    for (const needed of [
      ...ownPeriod(context, network.registers[register]),
      ...neededOf(context, clock, register, heard),
    ]) {
      isOpen ||= needed.isOpen;
      worst = slower(worst, needed);
      if (needed.isWritten) written = slower(written, needed);
    }
  }
  if (worst === null) return unanswered({ reason: 'period-without-transfer', args: {} });
  const { hasLogic } = context;
  if (!hasLogic && (isOpen || written === null))
    return { found: null, atLeast: pathOf(written), why: { reason: 'period-not-answerable', args: {} } };
  const reason = worst.isDistanceLeast ? 'period-at-least-distance' : 'period-of-longest-path';
  return { found: pathOf(worst), atLeast: pathOf(hasLogic ? worst : written), why: { reason, args: {} } };
}

function slower(known: Needed | null, other: Needed): Needed {
  return known === null || other.ps > known.ps ? other : known;
}

function pathOf(needed: Needed | null): LeastPeriod['found'] {
  return needed === null ? null : { ps: needed.ps, from: needed.from, to: needed.to };
}

interface Needed {
  /** Of the root's period. */
  readonly ps: number;
  readonly from: RegisterId;
  readonly to: RegisterId;
  /** Whether the edges may be further apart than was taken. */
  readonly isDistanceLeast: boolean;
  /** As of a launch. */
  readonly isWritten: boolean;
  readonly isOpen: boolean;
}

/** What a sheet asks of the clock at the first stage. */
function ownPeriod({ delaySet }: LeastPeriodContext, { register, stage }: RegisterClocking): readonly Needed[] {
  const { period } = setOfRegister(delaySet, register);
  if (period === null || stage !== 1) return [];
  return [{ ps: period.max, from: register, to: register, isDistanceLeast: false, isWritten: false, isOpen: false }];
}

function heardBy({ launches, netlist }: DomainContext, register: RegisterId): Launches {
  const { data, width } = netlist.registers[register];
  const heard = Array.from({ length: width }, (_, bit) => launches(sourceBit(netlist.nodes, { node: data, bit })));
  return slowest(heard);
}

function neededOf(
  context: DomainContext,
  clock: DriveClock,
  to: RegisterId,
  heard: Exclude<Launches, 'latch'>,
): readonly Needed[] {
  const setup = setOfRegister(context.delaySet, to).setup?.max ?? 0;
  return [...heard.values()].flatMap(({ delay, from, isOpen, isWritten }) => {
    const [launching, capturing] = [context.network.registers[from], context.network.registers[to]];
    if (launching.root?.root !== clock.root || capturing.root?.root !== clock.root) return [];
    const late = lateness(context, from, to);
    if (late === null) return [];
    const distance = distanceOf(context, clock, launching, capturing);
    const ps = Math.max(0, late + delay + setup) / distance.periods;
    return [{ ps, from, to, isDistanceLeast: distance.isLeast, isWritten, isOpen }];
  });
}

/** How much later than the capturing clock the launching one arrives, at most, ps: −δmin, the shared part removed. */
function lateness(context: DomainContext, from: RegisterId, to: RegisterId): number | null {
  const { arrivals, network, netlist } = context;
  const isOneNet = network.registers[from].clock === network.registers[to].clock;
  if (isOneNet && netlist.registers[from].edge === netlist.registers[to].edge) return 0;
  const paths = unsharedPaths(context, from, to);
  const output = longestOutput(arrivals, from);
  return paths === null || output === null ? null : paths.data.max - output - paths.clock.min;
}

/** Clock-to-output as it stands in an arrival: what `delay` has counted already. */
function longestOutput(arrivals: Arrivals, from: RegisterId): number | null {
  const clock = arrivals.clockOf(from);
  const { fall, rise } = arrivals.outputOf(from);
  return clock === null || rise === null || fall === null ? null : Math.max(rise.max, fall.max) - clock.max;
}

/** From the launching edge to the first one after it that captures, in root periods. */
function distanceOf(
  { clocks }: LeastPeriodContext,
  { high, period }: DriveClock,
  from: RegisterClocking,
  to: RegisterClocking,
): { readonly periods: number; readonly isLeast: boolean } {
  const edges: readonly (RootEdge | undefined)[] = [from.root?.edge, to.root?.edge];
  if (edges.includes('either')) return { periods: Math.min(high, period - high) / period, isLeast: true };
  if (edges[0] !== edges[1]) {
    const isHighFirst = edges[0] === 'rising';
    return { periods: (isHighFirst ? high : period - high) / period, isLeast: from.stage > 1 || to.stage > 1 };
  }
  const { ratio, uniform } = clocks[from.clock];
  if (from.stage === 1 && to.stage === 1) return { periods: 1, isLeast: false };
  if (from.clock !== to.clock || ratio === null || uniform !== true) return { periods: 1, isLeast: true };
  return { periods: Number(ratio.numerator) / Number(ratio.denominator), isLeast: false };
}

function createLaunches(context: LeastPeriodContext): MemoWalk<Launches> {
  const { netlist, network } = context;
  const { nodes } = netlist;
  const sources = network.clocks.flatMap(({ sourceRegisters }) => sourceRegisters);
  const clocking = new Set(sources.map(({ register }) => register));
  const delayOf = createBitDelays(netlist, context.delaySet);
  return createMemoWalk<Launches>({
    operandsOf: (bit) =>
      nodes.op[bit.node] <= Op.hole ? [] : operandsOfBit(nodes, bit).map((operand) => sourceBit(nodes, operand)),
    valueOf(bit, _, values) {
      const op = nodes.op[bit.node];
      if (op === Op.latch) return 'latch';
      if (op === Op.register) return launchOf(context, clocking, nodes.aux[bit.node] as RegisterId);
      // A loop without a register between hears nothing more on its way round.
      return later(slowest(values.map((value) => value ?? nothing)), delayOf(bit));
    },
  });
}

const nothing: Launches = new Map();

/** Registers of one clock net and edge differ in nothing but their delay, unless one of them clocks something itself. */
function launchOf(
  { arrivals, netlist }: LeastPeriodContext,
  clocking: ReadonlySet<RegisterId>,
  id: RegisterId,
): Launches {
  const delay = longestOutput(arrivals, id);
  if (delay === null) return nothing;
  const { clock, delay: written, edge } = netlist.registers[id];
  const launch = { from: id, delay, isWritten: written >= 0, isOpen: false };
  return new Map([[clocking.has(id) ? `register ${id}` : `${bitKey(clock)} ${edge}`, launch]]);
}

/** What an operator adds to a launch. */
interface Added extends Pick<Launch, 'delay' | 'isOpen' | 'isWritten'> {}

const wiring: Added = { delay: 0, isOpen: false, isWritten: false };

/** The longest own delay of the operator behind a bit, ps. */
function createBitDelays(netlist: Netlist, delaySet: DelaySet): (bit: Bit) => Added {
  const { nodes, explicitDelays } = netlist;
  const covered = coveredByDelay(netlist);
  return ({ node }) => {
    const isWritten = nodes.op[node] === Op.delay;
    if (!isWritten && (covered[node] === 1 || logicClassOf(nodes.op[node]) === null)) return wiring;
    const delay = isWritten ? explicitDelays[nodes.aux[node]] : logicDelayOf(setOfNode(delaySet, node), nodes.op[node]);
    const isOpen = !isWritten && setOfNode(delaySet, node).logic === null;
    return { delay: Math.max(delay.rise.max, delay.fall.max), isOpen, isWritten };
  };
}

function later(launches: Launches, { delay, isOpen, isWritten }: Added): Launches {
  if (launches === 'latch' || (delay === 0 && !isOpen && !isWritten)) return launches;
  return new Map(
    [...launches].map(([group, launch]) => [
      group,
      {
        from: launch.from,
        delay: launch.delay + delay,
        isOpen: launch.isOpen || isOpen,
        isWritten: launch.isWritten || isWritten,
      },
    ]),
  );
}

function slowest(all: readonly Launches[]): Launches {
  if (all.length === 1) return all[0];
  const merged = new Map<string, Launch>();
  for (const launches of all) {
    if (launches === 'latch') return 'latch';
    for (const [group, launch] of launches) {
      const known = merged.get(group);
      if (known === undefined) merged.set(group, launch);
      else
        merged.set(group, { ...(launch.delay > known.delay ? launch : known), isOpen: known.isOpen || launch.isOpen });
    }
  }
  return merged;
}

function unanswered(why: Why): LeastPeriod {
  return { found: null, atLeast: null, why };
}
