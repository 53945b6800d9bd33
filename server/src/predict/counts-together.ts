// Follows vectors that hear each other in one run. Each part's period is proven by what it hears: once all of that comes
// round, the part's own state has to return at the same place of that round. So a row of stages costs one run, not one
// run per stage. What does not come round soon is left to a run of its own, which finds the same if it finds anything.

import { limbCount } from '../netlist/four-state';
import type { NodeId, RegisterId } from '../netlist/netlist';
import { type BitChange, collectChanges, timeChanges } from './arrival-events';
import { type CountEntry, offsetsOf, readEntry } from './counts-entry';
import { createReadingLog, type ReadingLog } from './counts-log';
import { type Part, partsOf } from './counts-parts';
import { type CountContext, cycleOfReadings, type Readings } from './counts-run';
import { passesOf } from './counts-steps';
import type { CountStep } from './prediction';
import { bitsOfRegisters, type Run, startRun, stepRun } from './settled-run';
import type { SettledValues } from './settled-logic';
import type { SettledPlan } from './settled-plan';

/** What one run tells of one vector, and the sources that its sequence hangs on. */
export interface FollowedTogether {
  readonly readings: Omit<Readings, 'run'>;
  readonly heard: ReadonlySet<NodeId>;
}

/** Fewer are as quick in runs of their own, which some of them need in any case. */
const fewestTogether = 8;

/** Root periods looked at, readings kept, and evaluations per root period of the limit: as for runs of their own. */
const mostPeriods = 4096;
const mostReadings = 1_048_576;
const workPerPeriod = 64;
const runsForMany = 16;
/** As many vectors are paid for like one run. */
const vectorsPerRun = 64;

/** By register id, of vectors by themselves. `everything`: the plan of the whole netlist. */
export function* followTogether(
  context: CountContext,
  entries: readonly CountEntry[],
  everything: SettledPlan,
): Generator<void, ReadonlyMap<RegisterId, FollowedTogether>> {
  const alone = entries.filter((entry) => isAlone(context, entry));
  const found = new Map<RegisterId, FollowedTogether>();
  const parts = alone.length >= fewestTogether ? partsOf(context, everything) : new Map<RegisterId, Part>();
  for (const journey of journeysOf(alone, parts)) {
    if (journey.entries.length >= fewestTogether) yield* followJourney(context, journey, found);
  }
  return found;
}

/** A vector by itself, whose period nothing tells without a run. */
function isAlone({ shifts }: CountContext, { chain, registers }: CountEntry): boolean {
  return chain === null && registers.length === 1 && !shifts.has(registers[0]);
}

interface Journey {
  readonly entries: readonly CountEntry[];
  /** Theirs and all that they hear: what is heard comes first. */
  readonly parts: readonly Part[];
}

/** Vectors that hear each other, or the same registers, and begin after the same resets. */
function journeysOf(entries: readonly CountEntry[], parts: ReadonlyMap<RegisterId, Part>): readonly Journey[] {
  const familyOf = familiesOf(new Set(parts.values()));
  const journeys = new Map<string, CountEntry[]>();
  for (const entry of entries) {
    const part = parts.get(entry.registers[0]);
    if (part === undefined) continue;
    const key = `${familyOf(part)} ${part.sources.resets}`;
    const members = journeys.get(key) ?? [];
    journeys.set(key, members);
    members.push(entry);
  }
  return [...journeys.values()].map((members) => {
    const all = new Set(members.map(({ registers }) => parts.get(registers[0]) as Part));
    for (const part of all) for (const heard of part.hears) all.add(heard);
    return { entries: members, parts: [...all].sort((left, right) => left.order - right.order) };
  });
}

/** A number for each part: equal where one hears the other, directly or by others. */
function familiesOf(parts: ReadonlySet<Part>): (part: Part) => number {
  const above = new Map<Part, Part>();
  const eldest = (part: Part): Part => {
    let top = part;
    for (let next = above.get(top); next !== undefined; next = above.get(top)) top = next;
    for (let at = part; at !== top; ) {
      const next = above.get(at) as Part;
      above.set(at, top);
      at = next;
    }
    return top;
  };
  for (const part of parts) {
    for (const heard of part.hears) {
      const [left, right] = [eldest(part), eldest(heard)];
      if (left !== right) above.set(left, right);
    }
  }
  return (part) => eldest(part).order;
}

function* followJourney(
  context: CountContext,
  { entries, parts }: Journey,
  found: Map<RegisterId, FollowedTogether>,
): Generator<void, void> {
  const { limits, netlist } = context;
  const watched = entries.flatMap(({ registers }) => registers);
  const started = yield* startRun(context, bitsOfRegisters(netlist, watched), parts[0].root);
  if (started.kind === 'refused') return;
  const run = started.value;
  const rounds = parts.map((part) => createRound(run, part));
  const roundOf = new Map(rounds.map((round) => [round.part, round]));
  const heardBy = rounds.map(({ part }) => part.hears.map((heard) => roundOf.get(heard) as Round));
  const roundOfRegister = new Map(rounds.flatMap((round) => round.part.registers.map((id) => [id, round] as const)));
  let open = entries.map((entry) => createNotes(context, run, entry, roundOfRegister.get(entry.registers[0]) as Round));
  const changes = listenTo(run, open);
  const runs = Math.min(runsForMany, 1 + entries.length / vectorsPerRun);
  const workLimit = run.machine.work + limits.period * workPerPeriod * runs;
  let readings = 0;
  for (let period = 0; period <= Math.min(mostPeriods, limits.period) && open.length > 0; period++) {
    if (period > 0) {
      changes.clear();
      stepRun(run, () => {});
      if (!changes.areSampled) break;
      for (const notes of open) takeReading(context, run, notes, changes.of(notes.register));
      readings += open.length;
    }
    rounds.forEach((round, index) => {
      lookAtState(run, round, heardBy[index], period);
    });
    for (const { entry, heard, log, passes, round } of open) {
      if (round.cycle === null) continue;
      const cycle = cycleOfReadings(log, (start) => start, round.cycle);
      const told = { log, passes: passes ?? nothingPassed, cycle, settle: null, worst: null, why: null };
      if (cycle !== null) found.set(entry.registers[0], { readings: told, heard });
    }
    open = open.filter(({ round }) => round.cycle === null && !round.isHopeless);
    if (run.machine.work > workLimit || readings > mostReadings) break;
    if (period % periodsPerTurn === 0) yield;
  }
}

const periodsPerTurn = 64;

const nothingPassed: Readings['passes'] = { get: () => [] };

/** Whether and how the state of a part and all that it hears comes round, in root periods. */
interface Round {
  readonly part: Part;
  /** Limbs of its registers. */
  readonly limbs: readonly number[];
  readonly seen: Map<string | number, number>;
  cycle: { readonly leadIn: number; readonly period: number } | null;
  /** What it hears comes round too late, or together too seldom. */
  isHopeless: boolean;
}

function createRound({ machine }: Run, part: Part): Round {
  const { plan } = machine;
  const limbs = part.registers.flatMap((id) => {
    const { position } = plan.registers[plan.registerIndex[id]];
    return Array.from({ length: limbCount(plan.width[position]) }, (_, limb) => plan.offset[position] + limb);
  });
  return { part, limbs, seen: new Map(), cycle: null, isHopeless: false };
}

function lookAtState({ machine }: Run, round: Round, heard: readonly Round[], period: number): void {
  if (round.cycle !== null || round.isHopeless) return;
  const around = together(heard);
  if (around === null || around.period > mostPeriods) {
    round.isHopeless = around !== null || heard.some(({ isHopeless }) => isHopeless);
    return;
  }
  if (period < around.leadIn) return;
  const key = keyOf(machine.values, round.limbs, (period - around.leadIn) % around.period);
  const before = round.seen.get(key);
  round.seen.set(key, before ?? period);
  if (before === undefined) return;
  round.cycle = { leadIn: before, period: period - before };
  round.seen.clear();
}

/** When all of them have come round; null where one has not. */
function together(heard: readonly Round[]): Round['cycle'] {
  let leadIn = 0;
  let period = 1;
  for (const { cycle } of heard) {
    if (cycle === null) return null;
    leadIn = Math.max(leadIn, cycle.leadIn);
    period = (period / divisorOf(period, cycle.period)) * cycle.period;
    if (period > mostPeriods) break;
  }
  return { leadIn, period };
}

function divisorOf(left: number, right: number): number {
  return right === 0 ? left : divisorOf(right, left % right);
}

/** A number where the state is one limb, all of it known. */
function keyOf({ a, b }: SettledValues, limbs: readonly number[], place: number): string | number {
  if (limbs.length === 1 && b[limbs[0]] === 0) return a[limbs[0]] + place * 2 ** 32;
  let key = `${place}`;
  for (const limb of limbs) key += b[limb] === 0 ? ` ${a[limb]}` : ` ${a[limb]}/${b[limb]}`;
  return key;
}

interface Notes {
  readonly entry: CountEntry;
  readonly register: RegisterId;
  readonly heard: ReadonlySet<NodeId>;
  readonly round: Round;
  readonly offsets: ReadonlyMap<RegisterId, number>;
  readonly log: ReadingLog;
  /** Null where all bits change at one time, so that nothing is passed. */
  readonly passes: Map<number, CountStep['passes']> | null;
}

function createNotes({ arrivals, netlist }: CountContext, { machine }: Run, entry: CountEntry, round: Round): Notes {
  const [register] = entry.registers;
  const { fall, rise } = arrivals.outputOf(register);
  const isAtOnce = rise !== null && fall !== null && rise.typ === fall.typ;
  const log = createReadingLog(readEntry(machine, entry));
  const offsets = offsetsOf(netlist, entry);
  return { entry, register, heard: round.part.sources.nodes, round, offsets, log, passes: isAtOnce ? null : new Map() };
}

function takeReading(
  context: CountContext,
  { machine }: Run,
  { entry, log, offsets, passes }: Notes,
  changes: readonly BitChange[],
): void {
  const from = log.at(log.length - 1);
  log.add(readEntry(machine, entry));
  if (passes === null) return;
  const timed = timeChanges(context, changes) ?? [];
  passes.set(log.length - 2, passesOf(from, entry.width, timed, offsets));
}

/** What the registers whose bits change at different times do in one period. */
function listenTo(run: Run, notes: readonly Notes[]) {
  const { registers } = run.machine.plan;
  const wanted = new Set(notes.flatMap(({ passes, register }) => (passes === null ? [] : [register])));
  const byRegister = new Map<RegisterId, BitChange[]>();
  const changes = {
    /** Whether nothing changed but by an edge of the root. */
    areSampled: true,
    clear: () => byRegister.clear(),
    of: (register: RegisterId): readonly BitChange[] => byRegister.get(register) ?? [],
  };
  run.listener = (change) => {
    if (change.kind !== 'sampled' || change.step !== 1) changes.areSampled = false;
    const { id } = registers[change.register].register;
    if (!wanted.has(id)) return;
    const own: BitChange[] = [];
    collectChanges(own, id, change);
    byRegister.set(id, own);
  };
  return changes;
}
