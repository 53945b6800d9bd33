// One proven period looked at closely: every register bit and clock of a group of targets over the root periods between
// two equal states. Only settled levels count; what comes and goes within one instant is no rise.

import type { Clock, ClockId } from '../clocks/network';
import type { NodeId, Register, RegisterId } from '../netlist/netlist';
import type { ClockTiming, Fraction } from './prediction';
import { fractionOf } from './ratio-fraction';
import { risePattern } from './ratio-pattern';
import { closeTally, createTally, dutyOf, ratioOf, type Tally, tallyLevel } from './ratio-tally';
import { type Cycle, findCycle } from './settled-cycle';
import { levelAt } from './settled-logic';
import type { SettledMachine } from './settled-machine';
import { type Run, type RunContext, startRun, stepRun } from './settled-run';

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

/** Null where the state does not return within `limit` root periods, or where the targets have no clock to count by. */
export function* surveyTargets(
  context: RunContext,
  { registers, clocks }: RatioTargets,
  root: number,
  limit: number,
): Generator<void, Survey | null> {
  const { netlist, network } = context;
  const owners = registers.map((id) => netlist.registers[id]);
  const watched = [
    ...owners.map(({ node }) => node),
    ...owners.flatMap((register) => enableOf(register) ?? []),
    ...clocks.map((id) => network.clocks[id].bit.node),
  ];
  const started = yield* startRun(context, watched, root);
  if (started.kind === 'refused') return null;
  const run = started.value;
  const cycle = yield* findCycle(run, { period: limit }, () => {});
  if (cycle === null) return null;
  const registerTallies = owners.map((register) => createRegisterTally(run.machine, register));
  const clockTallies = clocks.map((id) => createClockTally(run.machine, network.clocks[id]));
  yield* tour(run, cycle, registerTallies, clockTallies);
  return {
    registers: new Map(registerTallies.map((tally) => [tally.register.id, ratiosOf(tally, run, cycle)])),
    clocks: new Map(clockTallies.map((tally) => [tally.clock.id, clockTimingOf(tally, run, cycle)])),
  };
}

interface RegisterTally {
  readonly register: Register;
  readonly index: number;
  readonly position: number;
  /** Least significant first. */
  readonly bits: readonly Tally[];
  readonly enable: number | null;
  /** Edges at which it sampled, and at which it was enabled. */
  samples: number;
  taken: number;
  readonly updates: number[];
  enabled: number;
}

interface ClockTally {
  readonly clock: Clock;
  readonly position: number;
  readonly tally: Tally;
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
    updates: [],
    enabled: enable === null ? 1 : levelAt(plan, values, enable, 0),
  };
}

function createClockTally({ plan, values }: SettledMachine, clock: Clock): ClockTally {
  const position = plan.positionOf[clock.bit.node];
  return { clock, position, tally: createTally(levelAt(plan, values, position, clock.bit.bit)) };
}

function* tour(
  run: Run,
  { period }: Cycle,
  registers: readonly RegisterTally[],
  clocks: readonly ClockTally[],
): Generator<void, void> {
  const { plan, values } = run.machine;
  const changed = new Set<number>();
  run.machine.listener = ({ register }) => changed.add(register);
  let edge = 0;
  const look = (): void => {
    for (const tally of registers) {
      if (changed.has(tally.index)) lookAtBits(run.machine, tally, edge);
      lookAtEnable(run.machine, tally, edge);
    }
    for (const { clock, position, tally } of clocks)
      tallyLevel(tally, edge, levelAt(plan, values, position, clock.bit.bit));
    changed.clear();
    edge += 1;
  };
  for (let index = 0; index < period; index++) {
    stepRun(run, look);
    if (index % 256 === 255) yield;
  }
  run.machine.listener = null;
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
  if (samples[tally.index] !== tally.samples) {
    tally.samples = samples[tally.index];
    tally.taken += 1;
    if (tally.enabled === 1) tally.updates.push(edge);
  }
  tally.enabled = levelAt(plan, values, tally.enable, 0);
}

function ratiosOf({ bits, enable, updates, taken }: RegisterTally, run: Run, { period }: Cycle): RegisterRatios {
  const descending = [...bits].reverse();
  const isPeriodic = enable !== null && updates.length > 0 && updates.length < taken && isEven(updates, 2 * period);
  return {
    ratios: descending.map((tally) => ratioOf(tally, period)),
    duties: descending.map((tally) => dutyOf(tally, period, run.clock, run.restLevel)),
    updateEvery: isPeriodic ? fractionOf(period, updates.length) : null,
  };
}

function isEven(edges: readonly number[], length: number): boolean {
  const gap = length / edges.length;
  return edges.every((edge, index) => edge === edges[0] + index * gap);
}

function clockTimingOf(
  { clock, tally }: ClockTally,
  { clock: root, restLevel }: Run,
  { period, leadIn }: Cycle,
): ClockTiming {
  const ratio = ratioOf(tally, period);
  if (ratio === null) return unknownTiming(clock.id);
  const rises = tally.rises.map((edge) => (edge + 2 * leadIn) % (2 * period)).sort((left, right) => left - right);
  return {
    clock: clock.id,
    ratio,
    duty: dutyOf(tally, period, root, restLevel),
    ...risePattern(rises, 2 * period, root, restLevel, clock.risesOn),
    hertz: (rootHertz(root) * Number(ratio.denominator)) / Number(ratio.numerator),
  };
}

function rootHertz(root: Run['clock']): number {
  const { numerator, denominator } = root.exactPeriod ?? { numerator: root.period, denominator: 1 };
  return (1e12 * denominator) / numerator;
}

export function unknownTiming(clock: ClockId): ClockTiming {
  return { clock, ratio: null, duty: null, uniform: null, pattern: [], hertz: null };
}
