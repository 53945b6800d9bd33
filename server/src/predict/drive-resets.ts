// The resets of a drive (definition 35): active from 0 for two periods of the slowest clock that samples them, released a
// quarter period after the inactive edge that follows (after any edge, where both are active). A reset is what forces a
// constant, asynchronously or first in priority at every edge of a process; loads of other values are held inactive. A
// port that a person states as an input is driven as one.

import type { ClockNetwork, Clock, RegisterClocking, RootEdge } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import { signalBitName } from '../netlist/bit-names';
import type { Bit, Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { timeWords } from '../text/time-words';
import type { Assumption, DriveClock, DriveOptions, DriveReset } from './drive';
import { assumedAsTold, notTold, releaseOfWave, sourceOf, type ToldWave, type ToldWaves } from './drive-told';
import { unknownName } from './drive-clocks';
import { type DrivePort, type DrivePorts, isTaken, type TakenBits, takeBit } from './drive-ports';
import { requestsFor } from './drive-requests';
import { hintOfName } from './drive-words';

export interface DrivenResets {
  readonly resets: readonly DriveReset[];
  readonly assumptions: readonly Assumption[];
}

export interface ResetInput {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly ports: DrivePorts;
  readonly options: DriveOptions;
  readonly told: ToldWaves;
  readonly clocks: readonly DriveClock[];
  /** Gets the bits that are resets. */
  readonly taken: TakenBits;
}

/** A port bit that resets, and whom. */
interface FoundReset {
  readonly bit: Bit;
  readonly port: DrivePort;
  readonly name: string;
  readonly active: 'high' | 'low';
  readonly registers: Set<RegisterId>;
  /** Registers of a synchronizer between the port and those: each takes one more period. */
  depth: number;
}

const usualPeriods = 2;

export function driveResets(input: ResetInput): DrivenResets {
  const { ports, options, taken } = input;
  const assumptions: Assumption[] = [];
  const found = findResets(input);
  for (const name of Object.keys(options.resets)) {
    const named = ports.bitNamed(name);
    if (named === null) assumptions.push(unknownName('resets', name));
    else if (!found.has(bitKey(named.bit))) found.set(bitKey(named.bit), resetByName(named.bit, named.port, name));
  }
  const isReset = ({ active, name }: FoundReset) => {
    if (Object.hasOwn(options.resets, name)) return true;
    const wave = input.told.get(name)?.wave ?? null;
    return !Object.hasOwn(options.inputs, name) && (wave === null || releaseOfWave(wave, active) !== null);
  };
  const inOrder = [...found.values()]
    .filter(isReset)
    .sort((left, right) => left.port.signal.id - right.port.signal.id || left.bit.bit - right.bit.bit);
  const resets = inOrder.map((reset) => {
    takeBit(taken, reset.bit);
    return resetOf(input, reset, assumptions);
  });
  return { resets, assumptions };
}

function resetByName(bit: Bit, port: DrivePort, name: string): FoundReset {
  return { bit, port, name, active: hintOfName(name)?.active ?? 'high', registers: new Set(), depth: 0 };
}

function findResets(input: ResetInput): Map<number, FoundReset> {
  const { netlist, network, ports, taken } = input;
  const found = new Map<number, FoundReset>();
  const note = (bit: Bit, active: 'high' | 'low', register: RegisterId | null, depth: number): void => {
    const port = ports.portOf(bit.node);
    if (port === null || port.signal.port === 'inout' || isTaken(taken, bit)) return;
    const name = signalBitName(port.signal, bit.bit);
    const known = found.get(bitKey(bit)) ?? { bit, port, name, active, registers: new Set(), depth };
    if (register !== null) known.registers.add(register);
    known.depth = Math.max(known.depth, depth);
    found.set(bitKey(bit), known);
  };
  const follow = (control: Bit, active: 'high' | 'low', register: RegisterId | null): void => {
    for (const { bit, level, depth } of resetSources(netlist, control, active))
      note(bit, level === 1 ? 'high' : 'low', register, depth);
  };
  for (const { register, asynchronous, synchronous } of network.registers) {
    for (const { bit, active, value } of asynchronous)
      if (isConstantNode(netlist, value)) follow(bit, active, register);
    for (const { bit, active } of synchronous) follow(bit, active, register);
  }
  for (const { asynchronous } of netlist.latches) {
    for (const { control, active, value } of asynchronous)
      if (isConstantNode(netlist, value)) follow(control, active, null);
  }
  return found;
}

/** Ports behind a reset control, also through the registers of a synchronizer (each samples the one before, plainly). */
function resetSources(netlist: Netlist, control: Bit, active: 'high' | 'low') {
  const level = active === 'high' ? (1 as const) : (0 as const);
  const sources = requestsFor(netlist, { bit: control, level, choices: 'all', storage: 'ends' }).map((request) => ({
    ...request,
    depth: 0,
  }));
  let bit = sourceBit(netlist.nodes, control);
  for (let depth = 1; depth <= deepestSynchronizer && netlist.nodes.op[bit.node] === Op.register; depth++) {
    const { data } = netlist.registers[netlist.nodes.aux[bit.node]];
    const before = { node: data, bit: bit.bit };
    sources.push(
      ...requestsFor(netlist, { bit: before, level, choices: 'none', storage: 'ends' }).map((request) => ({
        ...request,
        depth,
      })),
    );
    bit = sourceBit(netlist.nodes, before);
  }
  return sources;
}

const deepestSynchronizer = 4;

export function isConstantNode({ nodes }: Netlist, node: NodeId): boolean {
  for (let bit = 0; bit < nodes.width[node]; bit++) {
    if (nodes.op[sourceBit(nodes, { node, bit }).node] !== Op.constant) return false;
  }
  return true;
}

function resetOf(input: ResetInput, found: FoundReset, assumptions: Assumption[]): DriveReset {
  const told = Object.hasOwn(input.options.resets, found.name) ? undefined : input.told.get(found.name);
  return toldReset(input, found, told, assumptions) ?? statedReset(input, found, assumptions);
}

/** As a test bench or a dump drives it; null where none does, or in no way that is followed. */
function toldReset(
  input: ResetInput,
  { active, bit, name, registers }: FoundReset,
  told: ToldWave | undefined,
  assumptions: Assumption[],
): DriveReset | null {
  if (told === undefined) return null;
  const release = told.wave === null ? null : releaseOfWave(told.wave, active);
  if (release === null) {
    assumptions.push(notTold(name, told));
    return null;
  }
  assumptions.push(assumedAsTold(name, `active ${active} until ${timeWords(release)}`, told));
  const period = slowestClock(input, registers)?.clock.period ?? usualPeriod;
  const source = sourceOf(told);
  return {
    bit,
    name,
    active,
    periods: Math.ceil(release / period),
    release,
    source,
    activeSource: source,
    periodsSource: source,
  };
}

function statedReset(input: ResetInput, found: FoundReset, assumptions: Assumption[]): DriveReset {
  const { bit, name, port, depth } = found;
  const given = Object.hasOwn(input.options.resets, name) ? input.options.resets[name] : undefined;
  const place = port.signal.place;
  let periods = given?.periods ?? usualPeriods + depth;
  if (!Number.isSafeInteger(periods) || periods < 0) {
    const args = { name, written: periods };
    assumptions.push({
      about: name,
      value: String(periods),
      source: 'given',
      why: { reason: 'drive-reset-periods-refused', args },
      place,
    });
    periods = usualPeriods + depth;
  }
  const active = given?.active ?? found.active;
  const release = periods === 0 ? 0 : releaseOf(input, found, periods);
  const isGiven = given !== undefined && given.active !== null && given.periods !== null;
  if (!isGiven) {
    const args = { name, active, periods, release };
    assumptions.push({
      about: name,
      value: `active ${active} until ${timeWords(release)}`,
      source: 'inferred',
      why: { reason: 'drive-reset-assumed', args },
      place,
    });
  }
  return {
    bit,
    name,
    active,
    periods,
    release,
    source: isGiven ? 'given' : 'inferred',
    activeSource: (given?.active ?? null) === null ? 'inferred' : 'given',
    periodsSource: (given?.periods ?? null) === null ? 'inferred' : 'given',
  };
}

/** ps; of a clock of which nothing is known. */
const usualPeriod = 20_000;

/** ps; where nothing samples it under a driven clock, as under the first one. */
function releaseOf(input: ResetInput, { registers }: FoundReset, periods: number): number {
  const slowest = slowestClock(input, registers);
  if (slowest === null) return periods * usualPeriod + 5_000;
  const { clock, factor, edges } = slowest;
  const least = periods * factor * clock.period;
  const candidates = [clock.phase, clock.phase + clock.high].filter((_, index) => edges[index]);
  const next = Math.min(
    ...candidates.map((first) => first + Math.max(0, Math.ceil((least - first) / clock.period)) * clock.period),
  );
  return next + Math.floor(clock.period / 4);
}

interface Slowest {
  readonly clock: DriveClock;
  /** Clock periods per period of what the register is clocked by, as far as structure tells. */
  readonly factor: number;
  /** Whether a release may follow the rising edge, the falling edge. */
  readonly edges: readonly [boolean, boolean];
}

function slowestClock({ network, clocks }: ResetInput, registers: ReadonlySet<RegisterId>): Slowest | null {
  let slowest: { clock: DriveClock; factor: number } | null = null;
  const edges = new Set<RootEdge>();
  for (const register of registers) {
    const clocking = network.registers[register];
    const clock = clocks.find(({ root }) => root >= 0 && clocking.roots.includes(root));
    if (clock === undefined) continue;
    const factor = factorOf(network, clocking);
    if (slowest === null || clock.period * factor > slowest.clock.period * slowest.factor) slowest = { clock, factor };
    edges.add(clocking.root?.edge ?? 'either');
  }
  if (slowest === null && clocks.length > 0) slowest = { clock: clocks[0], factor: 1 };
  if (slowest === null) return null;
  const isAny = edges.size > 1 || edges.has('either');
  return { ...slowest, edges: [isAny || edges.has('falling'), isAny || !edges.has('falling')] };
}

/** No more than this many root periods are waited for per period of a divided clock. */
const largestFactor = 2 ** 16;

/** A clock taken from bit k of a register is taken to be 2^(k + 1) times slower than that register's own. */
function factorOf(network: ClockNetwork, clocking: RegisterClocking): number {
  // Only a synchronous reset waits for an edge of its register's own clock.
  if (clocking.synchronous.length === 0) return 1;
  let factor = 1;
  let clock: Clock | undefined = network.clocks[clocking.clock];
  for (let step = 0; clock !== undefined && step < network.clocks.length && factor < largestFactor; step++) {
    const source: Clock['sourceRegisters'][number] | undefined = clock.sourceRegisters[0];
    if (source === undefined) clock = clock.from.length > 0 ? network.clocks[clock.from[0]] : undefined;
    else {
      factor *= 2 ** (source.bit + 1);
      clock = network.clocks[network.registers[source.register].clock];
    }
  }
  return Math.min(factor, largestFactor);
}
