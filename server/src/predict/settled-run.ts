// A cone of the netlist under its one clock, from the state after every reset has been released and every input has come
// to rest: root edge by root edge, until its state repeats. Refuses, with the reason, what has no clock of its own, hears
// a second one (a sequence across unrelated clocks is not a fact, definition 31) or an input that never comes to rest.

import type { Limits } from '../budget';
import type { ModuleCompiler } from '../cycles/compiled-module';
import type { ClockNetwork, Why } from '../clocks/network';
import { limbCount, toNumber } from '../netlist/four-state';
import { type Bit, type Netlist, type RegisterId, withOwnContents } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Drive, DriveClock } from './drive';
import { beginUnderDrive, type InputNodes, isHeard } from './settled-drive';
import { openingOf, playOpening } from './settled-opening';
import { advance, setSourceBit, type StartValues } from './settled';
import { demandedLimbs } from './settled-demand';
import type { StateKey } from './settled-seen';
import { createMachine, type SettledChange, type SettledMachine, type TransferOrder } from './settled-machine';
import { planSettled, type SettledPlan } from './settled-plan';

/** What every run of one prediction shares. */
export interface RunContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly drive: Drive;
  readonly inputs: InputNodes;
  readonly start: StartValues;
  readonly order: TransferOrder;
  readonly limits: Limits;
  /** Null: long runs are worked out without code, as far as limits allow. */
  readonly compile: ModuleCompiler | null;
}

export interface Run {
  readonly machine: SettledMachine;
  readonly clock: DriveClock;
  /** The clock's bit, wiring looked through. */
  readonly source: Bit;
  /** Level of the clock when a root period of the run begins. */
  readonly restLevel: 0 | 1;
  /** Limbs that hold the state (of registers, latches, and nodes in knots), each with its bits that count. */
  readonly state: readonly StateLimb[];
  /** Per register of the plan: the number it began with; NaN where that is unknown or wider than 32 bits. */
  readonly homes: Float64Array;
  /** Further bits that a jump must not change: what somebody looks at and no register is. */
  held: readonly Bit[];
  /** Registers of the plan that changed since the root period began. */
  readonly movers: Set<number>;
  /** Whole root periods since the run began. */
  periods: number;
  /** Told of every change of a register's output. */
  listener: ((change: SettledChange) => void) | null;
}

interface StateLimb {
  readonly limb: number;
  readonly mask: number;
  /** What it is taken times where the whole state fits into one number; null where it does not. */
  readonly scale: number | null;
}

export type RunResult<Value> =
  | { readonly kind: 'done'; readonly value: Value }
  | { readonly kind: 'refused'; readonly why: Why };

/**
 * A run of everything that influences these bits under one root, at rest after the last release of a reset, before the
 * next edge of its clock.
 */
export function* startRun(
  context: RunContext,
  watched: readonly Bit[],
  root: number | null,
): Generator<void, RunResult<Run>> {
  const plan = planSettled(
    withOwnContents(context.netlist),
    watched.map(({ node }) => node),
  );
  const clock = clockOfPlan(context, plan, root);
  if ('reason' in clock) return { kind: 'refused', why: clock };
  const opening = openingOf(context, plan, clock);
  if ('reason' in opening) return { kind: 'refused', why: opening };
  const machine = createMachine(plan, { order: context.order, stepLimit: context.limits.instantSteps });
  beginUnderDrive(machine, context.drive, context.inputs, context.start);
  const restLevel = yield* playOpening(machine, opening, clock);
  const masks = demandedLimbs(machine, watched);
  const run: Run = {
    machine,
    clock,
    source: sourceBit(context.netlist.nodes, clock.bit),
    restLevel,
    state: scaled(
      stateLimbs(plan).filter((limb) => masks[limb] !== 0),
      masks,
    ),
    homes: Float64Array.from(plan.registers, ({ position }) => toNumber(machine.values.views[position]) ?? Number.NaN),
    held: [],
    movers: new Set(),
    periods: 0,
    listener: null,
  };
  machine.listener = (change) => {
    run.movers.add(change.register);
    run.listener?.(change);
  };
  return { kind: 'done', value: run };
}

/** Every bit of these registers. */
export function bitsOfRegisters(netlist: Netlist, registers: readonly RegisterId[]): Bit[] {
  return registers.flatMap((id) => {
    const { node, width } = netlist.registers[id];
    return Array.from({ length: width }, (_, bit) => ({ node, bit }));
  });
}

/** One root period: two edges, with a look after each. */
export function stepRun(run: Run, afterEdge: (level: 0 | 1) => void): void {
  const first = run.restLevel === 0 ? 1 : 0;
  run.movers.clear();
  edge(run, first);
  afterEdge(first);
  edge(run, run.restLevel);
  afterEdge(run.restLevel);
  run.periods += 1;
}

/** What `tick` does, with the clock's source found once. */
function edge({ machine, source }: Run, level: 0 | 1): void {
  setSourceBit(machine, source, level);
  advance(machine);
}

/** The state as a key: equal for equal states of one run. A number where all of it is known and few enough bits. */
export function stateKey({ machine, state }: Run): StateKey {
  const { a, b } = machine.values;
  let number = 0;
  for (const { limb, mask, scale } of state) {
    if (scale === null || (b[limb] & mask) !== 0) return longKey(machine, state);
    number += ((a[limb] & mask) >>> 0) * scale;
  }
  return number;
}

function longKey({ values: { a, b } }: SettledMachine, state: Run['state']): string {
  let key = '';
  for (const { limb, mask } of state) {
    key += `${(a[limb] & mask) >>> 0},`;
    if ((b[limb] & mask) !== 0) key += `/${(b[limb] & mask) >>> 0},`;
  }
  return key;
}

/** Bits of a whole number that a `number` holds exactly. */
const mostBits = 53;

function scaled(limbs: readonly number[], masks: Uint32Array): readonly StateLimb[] {
  let bits = 0;
  const scaledLimbs = limbs.map((limb): StateLimb => {
    const scale = 2 ** bits;
    bits += 32 - Math.clz32(masks[limb]);
    return { limb, mask: masks[limb], scale };
  });
  return bits <= mostBits ? scaledLimbs : scaledLimbs.map((one) => ({ ...one, scale: null }));
}

/** The clock of the root if everything in the plan follows it and nothing hears another; else why not. */
function clockOfPlan({ network, drive }: RunContext, plan: SettledPlan, root: number | null): DriveClock | Why {
  if (root === null) return { reason: 'clock-without-root', args: {} };
  const roots = new Set(plan.registers.map(({ register }) => network.registers[register.id].root?.root ?? null));
  for (const latch of plan.latches) roots.add(network.latches[latch.id].root);
  roots.add(root);
  if (roots.has(null)) return { reason: 'clock-without-root', args: {} };
  if (roots.size > 1) return { reason: 'several-clocks', args: { clocks: namesOf(network, [...roots]) } };
  const clock = drive.clocks.find((candidate) => candidate.root === root);
  if (clock === undefined) return { reason: 'clock-not-driven', args: { clock: network.roots[root].name } };
  const foreign = drive.clocks.find((other) => other !== clock && isHeard(plan, other.bit));
  return foreign === undefined
    ? clock
    : { reason: 'several-clocks', args: { clocks: `${clock.name}, ${foreign.name}` } };
}

function namesOf(network: ClockNetwork, roots: readonly (number | null)[]): string {
  return roots
    .map((root) => network.roots[root as number].name)
    .sort()
    .join(', ');
}

/** Where registers, latches, and nodes that feed each other keep what they hold. */
export function stateLimbs(plan: SettledPlan): number[] {
  const held = [
    ...plan.registers.map(({ position }) => position),
    ...plan.latches.map(({ node }) => plan.positionOf[node]),
  ];
  const knotted = Array.from(plan.knotOf.keys()).filter((position) => plan.knotOf[position] >= 0);
  const positions = [...new Set([...held, ...knotted])].sort((left, right) => left - right);
  return positions.flatMap((position) => limbsOf(plan, position));
}

function limbsOf({ offset, width }: SettledPlan, position: number): number[] {
  return Array.from({ length: limbCount(width[position]) }, (_, limb) => offset[position] + limb);
}
