// One proven period looked at closely: every register bit and clock of a group of targets over the root periods between
// two equal states. Only settled levels count; what comes and goes within one instant is no rise.

import type { Clock, ClockId } from '../clocks/network';
import type { NodeId, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { DriveClock } from './drive';
import type { ClockTiming, Fraction } from './prediction';
import { addEdge, addEdgeRun, areEven, createEdgeRuns, type EdgeRuns } from './ratio-edges';
import { fractionOf } from './ratio-fraction';
import { risePattern } from './ratio-pattern';
import {
  closeTally,
  type CountStretch,
  createTally,
  dutyOf,
  ratioOf,
  type Tally,
  tallyCount,
  tallyLevel,
  tallyRepeat,
} from './ratio-tally';
import { type LongPurse, tourLong } from './long-of-run';
import { type Cycle, findCycle, type Purse, runFor } from './settled-cycle';
import { levelAt } from './settled-logic';
import type { SettledMachine } from './settled-machine';
import { bitsOfRegisters, type Run, type RunContext, startRun } from './settled-run';

export interface RatioTargets {
  readonly registers: readonly RegisterId[];
  readonly clocks: readonly ClockId[];
}

export interface RegisterRatios {
  /** Most significant first; null for a bit that stands still or is unknown at some time. */
  readonly ratios: readonly (Fraction | null)[];
  readonly duties: readonly (Fraction | null)[];
  readonly updateEvery: Fraction | null;
}

export interface Survey {
  readonly registers: ReadonlyMap<RegisterId, RegisterRatios>;
  readonly clocks: ReadonlyMap<ClockId, ClockTiming>;
}

/** Null where the state does not return within `limit` states, or where the targets have no clock to count by. */
export function* surveyTargets(
  context: RunContext,
  { registers, clocks }: RatioTargets,
  root: number,
  { limit, longPurse, purse }: { readonly limit: number; readonly purse: Purse; readonly longPurse: LongPurse },
): Generator<void, Survey | null> {
  const { netlist, network } = context;
  const owners = registers.map((id) => netlist.registers[id]);
  const enables = owners.flatMap((register) => enableOf(register) ?? []).map((node) => ({ node, bit: 0 }));
  const clockBits = clocks.map((id) => network.clocks[id].bit);
  const started = yield* startRun(context, [...bitsOfRegisters(netlist, registers), ...enables, ...clockBits], root);
  if (started.kind === 'refused') return null;
  const run = started.value;
  run.held = [...enables, ...clockBits.filter(({ node }) => netlist.nodes.op[node] !== Op.register)];
  const cycle = yield* findCycle(run, { period: limit }, purse, { afterEdge() {}, afterJump() {} });
  if (cycle === null) {
    return limit < context.limits.period ? null : yield* surveyLong(context, { registers, clocks }, run, longPurse);
  }
  const registerTallies = owners.map((register) => createRegisterTally(run.machine, register));
  const clockTallies = clocks.map((id) => createClockTally(run.machine, network.clocks[id]));
  yield* tour(run, cycle, registerTallies, clockTallies);
  return {
    registers: new Map(registerTallies.map((tally) => [tally.register.id, ratiosOf(tally, run, cycle)])),
    clocks: new Map(clockTallies.map((tally) => [tally.clock.id, clockTimingOf(tally, run, cycle)])),
  };
}

/** Where stepping shows no return, compiled code may. How often enables let registers follow is then left open. */
function* surveyLong(
  { compile, limits, netlist, network }: RunContext,
  targets: RatioTargets,
  run: Run,
  purse: LongPurse,
): Generator<void, Survey | null> {
  const clocks = targets.clocks.map((id) => network.clocks[id]);
  const asked = { bits: bitsOfRegisters(netlist, targets.registers), clocks: clocks.map(({ bit }) => bit) };
  const tour = yield* tourLong(run, asked, { compile, limit: limits.cycles, purse });
  if (tour === null) return null;
  const cycle = { leadIn: run.periods - tour.period, period: tour.period };
  let next = 0;
  const take = (count: number) => {
    next += count;
    return tour.tallies.slice(next - count, next);
  };
  const registers = targets.registers.map(
    (id) => [id, ratiosOfBits(take(netlist.registers[id].width), run, cycle)] as const,
  );
  const timings = clocks.map((clock) => [clock.id, clockTimingOf({ clock, tally: take(1)[0] }, run, cycle)] as const);
  return { registers: new Map(registers), clocks: new Map(timings) };
}

interface RegisterTally {
  readonly register: Register;
  readonly index: number;
  readonly position: number;
  /** Least significant first. */
  readonly bits: readonly Tally[];
  readonly enable: number | null;
  /** At how many edges it sampled, in all and in the period looked at last; and at which of them it was enabled. */
  samples: number;
  taken: number;
  takenLast: number;
  readonly updates: EdgeRuns;
  enabled: number;
}

interface ClockTally {
  readonly clock: Clock;
  readonly position: number;
  /** Index in the plan of the register whose output it is, -1 where it is none. */
  readonly register: number;
  readonly tally: Tally;
  /** Levels after the two edges of the period looked at last. */
  readonly last: [even: number, odd: number];
}

/** The one condition under which the whole register is assigned. */
function enableOf({ enables, width }: Register): NodeId | null {
  const [only, ...others] = enables;
  return only !== undefined && others.length === 0 && only.low === 0 && only.width === width ? only.condition : null;
}

function createRegisterTally(machine: SettledMachine, register: Register): RegisterTally {
  const { plan, values } = machine;
  const index = plan.registerIndex[register.id];
  const { position } = plan.registers[index];
  const condition = enableOf(register);
  const enable = condition === null ? null : plan.positionOf[condition];
  return {
    register,
    index,
    position,
    bits: Array.from({ length: register.width }, (_, bit) => createTally(levelAt(plan, values, position, bit))),
    enable,
    samples: machine.samples[index],
    taken: 0,
    takenLast: 0,
    updates: createEdgeRuns(),
    enabled: enable === null ? 1 : levelAt(plan, values, enable, 0),
  };
}

function createClockTally({ plan, values }: SettledMachine, clock: Clock): ClockTally {
  const position = plan.positionOf[clock.bit.node];
  const level = levelAt(plan, values, position, clock.bit.bit);
  const register = plan.op[position] === Op.register ? plan.registerIndex[plan.aux[position]] : -1;
  return { clock, position, register, tally: createTally(level), last: [level, level] };
}

/** Once round the period, edge by edge or jump by jump. */
function* tour(
  run: Run,
  { period }: Cycle,
  registers: readonly RegisterTally[],
  clocks: readonly ClockTally[],
): Generator<void, void> {
  const changed = new Set<number>();
  /** At which edge of a period each register changed last. */
  const parities = new Map<number, 0 | 1>();
  let edge = 0;
  run.listener = ({ register }) => changed.add(register);
  yield* runFor(run, period, {
    afterEdge() {
      const parity = (edge % 2) as 0 | 1;
      for (const register of changed) parities.set(register, parity);
      for (const tally of registers) {
        if (changed.has(tally.index)) lookAtBits(run.machine, tally, edge);
        lookAtEnable(run.machine, tally, edge);
      }
      for (const clock of clocks) lookAtClock(run.machine, clock, edge);
      changed.clear();
      edge += 1;
    },
    afterJump({ periods, counters }) {
      const counts = new Map(
        counters.map(({ register, from, step }) => [
          register,
          { from, step, periods, parity: parities.get(register) ?? 0 },
        ]),
      );
      for (const tally of registers) skipRegister(tally, edge, periods, counts.get(tally.index));
      for (const clock of clocks) skipClock(clock, edge, periods, counts.get(clock.register));
      edge += 2 * periods;
    },
  });
  run.listener = null;
  for (const { bits } of registers) for (const tally of bits) closeTally(tally, edge);
  for (const { tally } of clocks) closeTally(tally, edge);
}

function lookAtBits({ plan, values }: SettledMachine, { position, bits }: RegisterTally, edge: number): void {
  bits.forEach((tally, bit) => {
    tallyLevel(tally, edge, levelAt(plan, values, position, bit));
  });
}

/** The register took part in this instant if it sampled; whether it was enabled stood fixed before it. */
function lookAtEnable({ plan, values, samples }: SettledMachine, tally: RegisterTally, edge: number): void {
  if (tally.enable === null) return;
  if (edge % 2 === 0) tally.takenLast = 0;
  if (samples[tally.index] !== tally.samples) {
    tally.samples = samples[tally.index];
    tally.taken += 1;
    tally.takenLast += 1;
    if (tally.enabled === 1) addEdge(tally.updates, edge);
  }
  tally.enabled = levelAt(plan, values, tally.enable, 0);
}

function lookAtClock(
  { plan, values }: SettledMachine,
  { clock, position, tally, last }: ClockTally,
  edge: number,
): void {
  const level = levelAt(plan, values, position, clock.bit.bit);
  last[edge % 2] = level;
  tallyLevel(tally, edge, level);
}

/** A register that does not count stays as it is throughout a jump; its enable does so too. */
function skipRegister(tally: RegisterTally, edge: number, periods: number, count: CountStretch | undefined): void {
  for (const [index, bit] of tally.bits.entries()) if (count !== undefined) tallyCount(bit, edge, index, count);
  tally.taken += periods * tally.takenLast;
  if (tally.enabled !== 1 || tally.takenLast === 0) return;
  const { runs } = tally.updates;
  const { first, gap, count: known } = runs[runs.length - 1];
  addEdgeRun(tally.updates, { first: first + gap * (known - 1) + 2, gap: 2, count: periods * tally.takenLast });
}

function skipClock(
  { clock, tally, last }: ClockTally,
  edge: number,
  periods: number,
  count: CountStretch | undefined,
): void {
  if (count === undefined) tallyRepeat(tally, edge, periods, last);
  else tallyCount(tally, edge, clock.bit.bit, count);
}

function ratiosOf({ bits, enable, updates, taken }: RegisterTally, run: Run, { period }: Cycle): RegisterRatios {
  const isPeriodic = enable !== null && updates.count > 0 && updates.count < taken && areEven(updates, 2 * period);
  return {
    ...ratiosOfBits(bits, run, { leadIn: 0, period }),
    updateEvery: isPeriodic ? fractionOf(period, updates.count) : null,
  };
}

/** Of tallies, least significant first. */
function ratiosOfBits(bits: readonly Tally[], { clock, restLevel }: Run, { period }: Cycle): RegisterRatios {
  const descending = [...bits].reverse();
  return {
    ratios: descending.map((tally) => ratioOf(tally, period)),
    duties: descending.map((tally) => dutyOf(tally, period, clock, restLevel)),
    updateEvery: null,
  };
}

function clockTimingOf(
  { clock, tally }: Pick<ClockTally, 'clock' | 'tally'>,
  { clock: root, restLevel }: Run,
  cycle: Cycle,
): ClockTiming {
  const ratio = ratioOf(tally, cycle.period);
  if (ratio === null) return unknownTiming(clock.id);
  const pattern = risePattern(tally.rises, {
    clock: root,
    restLevel,
    risesOn: clock.risesOn,
    total: 2 * cycle.period,
    before: 2 * cycle.leadIn,
  });
  return {
    clock: clock.id,
    ratio,
    duty: dutyOf(tally, cycle.period, root, restLevel),
    ...pattern,
    hertz: (rootHertz(root) * Number(ratio.denominator)) / Number(ratio.numerator),
  };
}

export function rootHertz(root: DriveClock): number {
  const { numerator, denominator } = root.exactPeriod ?? { numerator: root.period, denominator: 1 };
  return (1e12 * denominator) / numerator;
}

export function unknownTiming(clock: ClockId): ClockTiming {
  return { clock, ratio: null, duty: null, uniform: null, pattern: [], hertz: null };
}
