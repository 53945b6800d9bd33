// Definition 9 for one control of one gate: does it change only while the clock holds the gate blocked? Told from which
// edge of which clock launches it; whether it arrives in time is a question of numbers, asked elsewhere.

import { bitKey } from '../netlist/bit-key';
import type { Bit, LatchId, RegisterId } from '../netlist/netlist';
import { type Context, sameBit, sourceOf } from './context';
import type { DomainList } from './domains';
import { type EdgeSet, edgeSet, rootEdgeOf, turned } from './edge-set';
import { controlName, isStatedStatic, type Launches, launchesOf } from './launches';
import type { MemoWalk } from './memo-walk';
import type { GateControl, GateFacts, RootEdge, Why } from './network';
import { type ClockWalk, edgesOfPin } from './clock-walk';

/** What the judging needs to know of the design. */
export interface Bench {
  readonly context: Context;
  readonly walk: MemoWalk<ClockWalk>;
  readonly domains: DomainList;
}

export type Verdict = GateFacts['verdict'];

export interface Judgement {
  readonly control: GateControl;
  readonly verdict: Verdict;
  readonly why: Why;
}

/** The clock that a gate passes, and the level of its base while nothing else is seen at the output. */
export interface GatedClock {
  readonly clock: ClockWalk;
  readonly blockedBase: 0 | 1 | null;
  /** As a person is told: the named clocks it is made from, and the level of the first that blocks. */
  readonly name: string;
  readonly blockedLevel: 0 | 1 | null;
}

/** The worse of two verdicts stands for both. */
const severity: Readonly<Record<Verdict, number>> = { strapped: 0, sound: 1, possible: 2, unsound: 3 };

/** The one that decides; of equal ones the first. There must be one. */
export function worstOf<Judged extends { readonly verdict: Verdict }>(judgements: readonly Judged[]): Judged {
  return judgements.reduce((worst, next) => (severity[next.verdict] > severity[worst.verdict] ? next : worst));
}

export function judgeControl(bench: Bench, gated: GatedClock, bit: Bit): Judgement {
  const launches = launchesOf(bench.context, bit);
  const control = controlFrom(bench, gated.clock, bit, launches);
  const outside = launches.outside.map((): Reason => ({ verdict: 'possible', reason: outsideReason(control) }));
  const reasons = [
    ...launches.registers.map((register) => judgeRegister(bench, gated, register)),
    ...launches.latches.map((latch) => judgeLatch(bench, gated, latch)),
    ...outside,
  ];
  const worst: Reason = reasons.length === 0 ? strappedReason(bench, bit) : worstOf(reasons);
  const args = { control: control.name, clock: gated.name, level: gated.blockedLevel ?? 'none' };
  return { control, verdict: worst.verdict, why: { reason: worst.reason, args } };
}

interface Reason {
  readonly verdict: Verdict;
  readonly reason: string;
}

function strappedReason({ context }: Bench, bit: Bit): Reason {
  const stated = isStatedStatic(context, sourceOf(context, bit));
  return { verdict: 'strapped', reason: stated ? 'control-stated-static' : 'control-constant' };
}

function outsideReason({ source }: GateControl): string {
  return source === 'blackBox' ? 'control-from-black-box' : 'control-from-port';
}

export function describeControl(bench: Bench, clock: ClockWalk, bit: Bit): GateControl {
  return controlFrom(bench, clock, bit, launchesOf(bench.context, bit));
}

function controlFrom(bench: Bench, clock: ClockWalk, bit: Bit, launches: Launches): GateControl {
  const moments = launchMoments(bench, launches);
  const own = moments.filter((moment) => !isForeign(bench, moment.walk, clock));
  return {
    bit: sourceOf(bench.context, bit),
    name: controlName(bench.context, bit),
    source: launches.source,
    changesOn: distinctEdges(own.map(({ edges }) => edges)),
    launchRegisters: launches.registers,
    launchLatches: launches.latches,
    foreign: own.length < moments.length,
  };
}

/** A clock and its root edges at which a control may change. */
interface Moment {
  readonly walk: ClockWalk;
  readonly edges: EdgeSet;
}

function launchMoments({ context, walk }: Bench, { registers, latches }: Launches): Moment[] {
  const { netlist } = context;
  return [
    ...registers.map((id) => {
      const { clock, edge } = netlist.registers[id];
      const pin = walk(sourceOf(context, clock));
      return { walk: pin, edges: edgesOfPin(pin, edge) };
    }),
    ...latches.map((id) => {
      const { gate, active } = netlist.latches[id];
      const pin = walk(sourceOf(context, gate));
      return { walk: pin, edges: active === 'high' ? pin.rises : pin.falls };
    }),
  ];
}

function distinctEdges(sets: readonly EdgeSet[]): RootEdge[] {
  const edges = [...new Set(sets)].sort((left, right) => left - right).map(rootEdgeOf);
  return edges.filter((edge) => edge !== null);
}

/** Of another domain, and not stated to be related. */
function isForeign({ domains }: Bench, launch: ClockWalk, clock: ClockWalk): boolean {
  const [from, to] = [domains.idOf(launch.domain), domains.idOf(clock.domain)];
  if (from === null || to === null) return true;
  return from !== to && !domains.domains[from].related.includes(to);
}

function judgeRegister(bench: Bench, gated: GatedClock, id: RegisterId): Reason {
  const { clock, edge } = bench.context.netlist.registers[id];
  const pin = bench.walk(sourceOf(bench.context, clock));
  if (isForeign(bench, pin, gated.clock)) return { verdict: 'possible', reason: 'control-foreign' };
  const edges = baseEdges(pin, edge, gated.clock);
  if (edges === null) return { verdict: 'possible', reason: 'control-phase-unknown' };
  if (gated.blockedBase === null) return { verdict: 'unsound', reason: 'gate-never-blocks' };
  return edges === edgeInto(gated.blockedBase)
    ? { verdict: 'sound', reason: 'control-changes-while-blocked' }
    : { verdict: 'unsound', reason: 'control-changes-while-passing' };
}

/** The edge of the base after which it has this level. */
function edgeInto(level: 0 | 1): EdgeSet {
  return edgeSet(level === 0 ? 'falling' : 'rising');
}

/**
 * The edges of the gate's own clock, at its base, at which a pin has an edge. Null where both come from one root but
 * their phase is not told by structure, as for a control that another stage of a divider launches.
 */
function baseEdges(pin: ClockWalk, edge: 'rising' | 'falling', gate: ClockWalk): EdgeSet | null {
  if (sameBit(pin.base, gate.base)) return edgeSet(pin.sense === 'straight' ? edge : turned(edge));
  const gateIsRoot = gate.roots.length === 1 && gate.roots[0] === bitKey(gate.base);
  const sameRoot = pin.roots.length === 1 && pin.roots[0] === gate.roots[0] && !pin.isOpen;
  return gateIsRoot && sameRoot ? edgesOfPin(pin, edge) : null;
}

/** A latch that is open exactly while the gate is blocked (definition 8). */
function judgeLatch(bench: Bench, gated: GatedClock, id: LatchId): Reason {
  const { gate, active } = bench.context.netlist.latches[id];
  const pin = bench.walk(sourceOf(bench.context, gate));
  if (isForeign(bench, pin, gated.clock)) return { verdict: 'possible', reason: 'control-foreign' };
  if (!sameBit(pin.base, gated.clock.base)) return { verdict: 'possible', reason: 'control-phase-unknown' };
  if (gated.blockedBase === null) return { verdict: 'unsound', reason: 'gate-never-blocks' };
  const opensAt = (active === 'high') === (pin.sense === 'straight') ? 1 : 0;
  return opensAt === gated.blockedBase
    ? { verdict: 'sound', reason: 'latch-open-while-blocked' }
    : { verdict: 'unsound', reason: 'latch-open-while-passing' };
}
