// The runs that timing checks are judged on: with typical delays, and with the least and the largest where they differ.
// What only an assumed stimulus brings about is no breach: that an assumed reset lets go, or that data of an unrelated
// clock or an input outside every clock meets the flip-flop that is there to bring it in.

import type { ClockNetwork, DomainId } from '../clocks/network';
import { everySet } from '../delays/own-delays';
import { type Corner, hasSpread } from '../delays/triple';
import { bitKey } from '../netlist/bit-key';
import type { DelayTriple, Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import { type Breach, breachesOf } from './check-windows';
import { type Check, checksOf } from './checks';
import type { Drive, Source } from './drive';
import { predictWaves, type TimedRun } from './timed-engine';
import { levelAt } from './wave-query';
import type { Waves } from './waves';

export interface Violation {
  readonly check: Check;
  /** The worst of each run that shows one, in the order of the corners. */
  readonly worst: readonly CornerBreach[];
  /** Runs made. */
  readonly runs: number;
  /** In the run with the most. */
  readonly count: number;
  /** It hangs on a clock of which nobody has said how fast it is, how long it is high or where its edges stand. */
  readonly clockAssumed: boolean;
}

export interface CornerBreach {
  readonly corner: Corner;
  readonly breach: Breach;
  /** One change of the drive has moved both: data and clock left together. */
  readonly isOneEdge: boolean;
}

/** In the order of the checks. Yields as the runs do. */
export function* findViolations(run: Omit<TimedRun, 'triple'>): Generator<void, readonly Violation[]> {
  const { delaySet, network, netlist } = run;
  const checks = checksOf(netlist, network, delaySet);
  if (checks.length === 0) return [];
  const origins = originsOf(run);
  const corners = cornersOf(run, checks);
  const found = checks.map((): Violation['worst'][number][] => []);
  const counts = checks.map(() => 0);
  for (const corner of corners) {
    const waves = yield* predictWaves({ ...run, triple: corner });
    for (const [index, check] of checks.entries()) {
      if (index % 64 === 63) yield;
      const breaches = breachesOf(waves, check, corner).filter((breach) => isCounted(origins, waves, check, breach));
      counts[index] = Math.max(counts[index], breaches.length);
      if (breaches.length === 0) continue;
      const breach = breaches.reduce(worseOf);
      const isOneEdge = haveOneOrigin(waves, breach);
      found[index].push({ corner, breach, isOneEdge });
      if (hangsOnAssumed(origins, waves, { breach, isOneEdge })) origins.assumed.add(index);
    }
  }
  return checks.flatMap((check, index) => {
    const worst = found[index];
    const clockAssumed = origins.assumed.has(index);
    return worst.length === 0 ? [] : [{ check, worst, runs: corners.length, count: counts[index], clockAssumed }];
  });
}

/** Typical first: most designs need no other. */
function cornersOf({ delaySet, netlist }: Pick<TimedRun, 'delaySet' | 'netlist'>, checks: readonly Check[]): Corner[] {
  const explicit = netlist.explicitDelays.flatMap(({ fall, paths, rise, toZ }) => [
    rise,
    fall,
    toZ,
    ...(paths ?? []).flat().flatMap(({ delays }) => delays),
  ]);
  const spread =
    everySet(delaySet).some((set) => triplesIn(set).some(hasSpread)) ||
    explicit.some(hasSpread) ||
    checks.some(({ limits }) => limits.some(hasSpread));
  return spread ? ['typ', 'min', 'max'] : ['typ'];
}

/** Every triple of a set, wherever it stands. */
function triplesIn(value: unknown): DelayTriple[] {
  if (typeof value !== 'object' || value === null || value instanceof Map) return [];
  if ('min' in value && 'typ' in value && 'max' in value) return [value as DelayTriple];
  return Object.entries(value).flatMap(([key, inner]) => (key === 'own' ? [] : triplesIn(inner)));
}

function worseOf(left: Breach, right: Breach): Breach {
  return Math.abs(right.gap - right.limit) > Math.abs(left.gap - left.limit) ? right : left;
}

interface Origin {
  readonly kind: 'clock' | 'reset' | 'input';
  readonly isAssumed: boolean;
  /** Of a clock: how long it is high, and where its edges stand. */
  readonly isHighAssumed: boolean;
  readonly isPhaseAssumed: boolean;
  readonly domain: number | null;
}

const still = { isHighAssumed: false, isPhaseAssumed: false, domain: null };

interface Origins {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  /** By driven bit. */
  readonly of: ReadonlyMap<number, Origin>;
  /** Registers that bring a port in, through flip-flops in a row. */
  readonly synchronizing: ReadonlySet<RegisterId>;
  /** Checks that a breach with an assumed clock was found for. */
  readonly assumed: Set<number>;
  /** By check, once asked for. */
  readonly sampling: Map<Check, readonly RegisterId[]>;
}

function originsOf({ drive, netlist, network }: Pick<TimedRun, 'drive' | 'netlist' | 'network'>): Origins {
  const of = new Map<number, Origin>();
  const key = (bit: Parameters<typeof sourceBit>[1]) => bitKey(sourceBit(netlist.nodes, bit));
  for (const { moves, signal, source, value } of drive.inputs) {
    if (moves === null) continue;
    for (let bit = 0; bit < value.width; bit++)
      of.set(key({ node: netlist.signals[signal].node, bit }), {
        ...still,
        kind: 'input',
        isAssumed: isAssumed(source),
      });
  }
  // Only a test bench says at which instant a reset lets go; of a number of periods the rest is ours.
  for (const { bit, periodsSource } of drive.resets)
    of.set(key(bit), { ...still, kind: 'reset', isAssumed: periodsSource !== 'text' });
  for (const { bit, highSource, phaseSource, root, source } of drive.clocks) {
    const origin = { isAssumed: isAssumed(source), isPhaseAssumed: isAssumed(phaseSource) };
    of.set(key(bit), {
      ...origin,
      kind: 'clock',
      isHighAssumed: isAssumed(highSource),
      domain: domainOf(network, root),
    });
  }
  const synchronizing = new Set(
    network.inputs.flatMap(({ readers }) => readers.flatMap(({ depth, register }) => (depth >= 2 ? [register] : []))),
  );
  return { netlist, network, of, synchronizing, assumed: new Set(), sampling: new Map() };
}

function isAssumed(source: Source): boolean {
  return source !== 'given' && source !== 'text';
}

function domainOf({ domains }: ClockNetwork, root: Drive['clocks'][number]['root']): number | null {
  return domains.find(({ roots }) => roots.length === 1 && roots[0] === root)?.id ?? null;
}

function isCounted(origins: Origins, waves: Waves, check: Check, { data, kind, reference }: Breach): boolean {
  if (check.idle.some(({ bit, level }) => levelAt(waves, bit, reference.time, 'before') === level)) return false;
  if (kind === 'width' || kind === 'period') return true;
  const [clock, other] = kind === 'recovery' || kind === 'removal' ? [data, reference] : [reference, data];
  const [by, from] = [originOf(origins, waves, clock.change), originOf(origins, waves, other.change)];
  if (from === null || by === null) return false;
  if (from.kind === 'reset') return !from.isAssumed;
  if (from.kind === 'input')
    return !samplingRegisters(origins, check).some((register) => origins.synchronizing.has(register));
  return (
    by.domain === null ||
    from.domain === null ||
    by.domain === from.domain ||
    areRelated(origins, by.domain, from.domain)
  );
}

/** The drive at the far end of a change's causes; null for what moves by itself, as a start value does. */
function originOf({ of }: Origins, { changes }: Waves, change: number): Origin | null {
  const at = originChange({ changes }, change);
  return of.get(bitKey({ node: changes.node[at] as NodeId, bit: changes.bit[at] })) ?? null;
}

function areRelated({ network }: Origins, left: number, right: number): boolean {
  const { domains } = network;
  return domains[left].related.includes(right as DomainId) || domains[right].related.includes(left as DomainId);
}

/** Of a check in the text: those of its instance and below. */
function samplingRegisters({ netlist, sampling }: Origins, check: Check): readonly RegisterId[] {
  const { instance, register } = check;
  if (register !== null) return [register];
  const { path } = netlist.instances[instance];
  const found =
    sampling.get(check) ??
    netlist.registers.flatMap(({ id, instance: own }) =>
      own === instance || netlist.instances[own].path.startsWith(`${path}.`) ? [id] : [],
    );
  sampling.set(check, found);
  return found;
}

/** What leaves and arrives with one edge hangs on no period; everything else does. */
function hangsOnAssumed(
  origins: Origins,
  waves: Waves,
  { breach, isOneEdge }: Pick<CornerBreach, 'breach' | 'isOneEdge'>,
): boolean {
  if (breach.kind === 'hold' && isOneEdge) return false;
  const both = [breach.reference, breach.data].flatMap(({ change }) => originOf(origins, waves, change) ?? []);
  const clocks = both.filter(({ kind }) => kind === 'clock');
  if (clocks.some((origin) => origin.isAssumed)) return true;
  if (breach.kind === 'width') return clocks.some(({ isHighAssumed }) => isHighAssumed);
  return clocks.length === 1 && clocks[0].isPhaseAssumed;
}

function haveOneOrigin(waves: Waves, { data, reference }: Breach): boolean {
  return originChange(waves, reference.change) === originChange(waves, data.change);
}

function originChange({ changes }: Pick<Waves, 'changes'>, change: number): number {
  let at = change;
  while (changes.cause[at] >= 0) at = changes.cause[at];
  return at;
}
