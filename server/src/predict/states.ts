// The states that a register holds, and how it goes from one to the next, with inputs free before each edge. Three ways,
// told apart in `method`:
// followed: together with every register of its clock that it hears, so that each step told is taken by some input;
// bounded: alone, what other registers decide being open, so that states and steps may be told that never come;
// run: as it runs with its inputs held, where it cannot be followed otherwise (ripple chains, registers cleared by logic).
// A state that no way reaches is not reached; nothing is said of upsets but what becomes of the states left over.

import type { Limits } from '../budget';
import type { ClockNetwork, Why } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import { digitAt } from '../netlist/four-state';
import {
  type Bit,
  memoryWords,
  type Netlist,
  type NodeId,
  type Register,
  type RegisterId,
  type SignalId,
} from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { DriveInput } from './drive';
import type { Count, Prediction } from './prediction';
import { type Chooser, createChooser } from './states-choice';
import { type NextCone, nextConeOf } from './states-cone';
import { exploreFrom, fatesOf, type Fate, type StatesBudget, type Steps } from './states-explore';
import { isDecidedByInputs, withHeard } from './states-together';

export interface StateGraph {
  /** Most significant first. */
  readonly registers: readonly RegisterId[];
  readonly width: number;
  readonly method: 'followed' | 'bounded' | 'run';
  readonly start: bigint;
  /** Reached, nearest to the start first. Empty where they are too many to be told. */
  readonly states: readonly ReachedState[];
  /** Values that are never reached; null where it was not looked at each of them. */
  readonly unused: readonly Fate[] | null;
  /** The same clock edge count as this entry of `counts`; null where none is of these registers. */
  readonly count: number | null;
}

export interface ReachedState {
  readonly value: bigint;
  readonly next: readonly {
    readonly to: bigint;
    /** One of these holds; each is a list of bits at a level that hold together. */
    readonly when: readonly (readonly Condition[])[];
  }[];
}

export interface Condition {
  readonly bit: Bit;
  readonly level: 0 | 1;
}

export interface StatesResult {
  readonly graphs: readonly StateGraph[];
  /** Groups of which nothing is told, and why. */
  readonly untold: readonly { readonly registers: readonly RegisterId[]; readonly why: Why }[];
}

export interface StatesContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly prediction: Prediction;
  readonly limits: Limits;
}

/** States told of one register; values looked at for what becomes of those never reached. */
const mostStates = 1_024;
const mostValues = 4_096;

/** Yields after a fixed amount of work. */
export function* findStates(context: StatesContext): Generator<void, StatesResult> {
  const graphs: StateGraph[] = [];
  const untold: { registers: readonly RegisterId[]; why: Why }[] = [];
  const budget = { states: mostStates, purse: { left: 32 * context.limits.states } };
  for (const group of groupsOf(context)) {
    const found = yield* statesOf(context, group, budget);
    if ('reason' in found) untold.push({ registers: group.registers, why: found });
    else graphs.push(found);
  }
  return { graphs, untold };
}

interface Group {
  readonly registers: readonly RegisterId[];
  readonly count: number | null;
}

/** What is counted: chains, and vector registers outside them. */
function groupsOf({ netlist, prediction }: StatesContext): readonly Group[] {
  const words = memoryWords(netlist);
  return prediction.counts.flatMap(({ registers }, count) =>
    registers.some((id) => words.has(netlist.registers[id].signal)) ? [] : [{ registers, count }],
  );
}

function* statesOf(context: StatesContext, group: Group, budget: StatesBudget): Generator<void, StateGraph | Why> {
  const { netlist, prediction } = context;
  const count = group.count === null ? null : prediction.counts[group.count];
  if (group.registers.length === 1) {
    const followed = yield* followedStates(context, netlist.registers[group.registers[0]], group.count, budget);
    if (!('reason' in followed)) return followed;
    return ranStates(group, count) ?? followed;
  }
  return ranStates(group, count) ?? { reason: 'states-several-clocks', args: {} };
}

function* followedStates(
  context: StatesContext,
  register: Register,
  count: number | null,
  budget: StatesBudget,
): Generator<void, StateGraph | Why> {
  const { netlist } = context;
  const start = startOf(context, register);
  if (start === null) return { reason: 'states-start', args: {} };
  if (!isClearedFromOutside(netlist, register)) return { reason: 'states-cleared', args: {} };
  const cone = nextConeOf(netlist, [register.id]);
  if ('reason' in cone) return cone;
  const fixed = fixedLevels(context, [register.id]);
  const explored = yield* exploreFrom(createChooser(netlist, cone, fixed), [start], budget);
  if (explored.kind !== 'all') return { reason: `states-${explored.kind}`, args: { limit: budget.states } };
  const exact = isDecidedByInputs(netlist, cone, { ports: heldPorts(context), fixed });
  const taken = exact ? null : yield* takenSteps(context, register, budget);
  const used = taken === null ? explored.steps : onlyTaken(explored.steps, taken, start);
  return {
    registers: [register.id],
    width: register.width,
    method: exact || taken !== null ? 'followed' : 'bounded',
    start,
    states: Array.from(used, ([value, next]) => ({
      value,
      next: next.map(({ to, when }) => ({ to, when: when.map((all) => all.map((one) => conditionOf(cone, one))) })),
    })),
    unused: yield* unusedOf(used, register.width, createChooser(netlist, cone, fixed), budget),
    count,
  };
}

function conditionOf(
  { atoms }: NextCone,
  { atom, level }: { readonly atom: number; readonly level: 0 | 1 },
): Condition {
  return { bit: atoms[atom].bit, level };
}

/** The steps, `from to`, that some input takes it by when every register it hears is followed with it; null: too many. */
function* takenSteps(
  context: StatesContext,
  register: Register,
  budget: StatesBudget,
): Generator<void, ReadonlySet<string> | null> {
  const { netlist } = context;
  const together = withHeard(context.netlist, context.network, register);
  if (together === null) return null;
  const starts = together.map((id) => startOf(context, netlist.registers[id]));
  if (starts.includes(null) || !together.every((id) => isClearedFromOutside(netlist, netlist.registers[id])))
    return null;
  const cone = nextConeOf(netlist, together);
  const fixed = fixedLevels(context, together);
  if ('reason' in cone || !isDecidedByInputs(netlist, cone, { ports: heldPorts(context), fixed })) return null;
  const chooser = createChooser(netlist, cone, fixed);
  const widths = together.map((id) => netlist.registers[id].width);
  const start = starts.reduceRight<bigint>((all, value, index) => (all << BigInt(widths[index])) | (value ?? 0n), 0n);
  const explored = yield* exploreFrom(chooser, [start], { states: 8 * budget.states, purse: budget.purse });
  if (explored.kind !== 'all') return null;
  const own = (state: bigint) => BigInt.asUintN(register.width, state);
  return new Set([...explored.steps].flatMap(([from, next]) => next.map(({ to }) => `${own(from)} ${own(to)}`)));
}

/** Again from the start, so that what only a step never taken leads to falls away. */
function onlyTaken(steps: Steps, taken: ReadonlySet<string>, start: bigint): Steps {
  const kept = new Map<bigint, NonNullable<ReturnType<Steps['get']>>>();
  const seen = new Set([start]);
  for (const state of seen) {
    const next = (steps.get(state) ?? []).filter(({ to }) => taken.has(`${state} ${to}`));
    kept.set(state, next);
    for (const { to } of next) seen.add(to);
  }
  return kept;
}

function* unusedOf(
  used: Steps,
  width: number,
  chooser: Chooser,
  budget: StatesBudget,
): Generator<void, readonly Fate[] | null> {
  const values = 2 ** width;
  if (used.size === values) return [];
  if (values > mostValues) return null;
  const all = Array.from({ length: values }, (_, value) => BigInt(value));
  const explored = yield* exploreFrom(chooser, all, { states: mostValues, purse: budget.purse });
  return explored.kind === 'all' ? fatesOf(new Set(used.keys()), explored.steps) : null;
}

/** As the run with inputs held shows it; null where no period is proven, or where it is too long. */
function ranStates({ registers, count: index }: Group, count: Count | null): StateGraph | null {
  if (count === null || count.period === null) return null;
  const values = [...count.leadIn, ...count.values];
  if (values.length < count.leadInTotal + count.valuesTotal || values.length > mostStates) return null;
  if (values.some((value) => !/^[0-9]+$/.test(value)) || count.values.length < 2) return null;
  const next = new Map<string, Set<string>>();
  for (const [at, value] of values.entries()) {
    const to = values[at + 1] ?? count.values[0];
    next.set(value, (next.get(value) ?? new Set()).add(to));
  }
  const trapped = new Set(count.trapped);
  const unused = Array.from({ length: count.explored ? 2 ** count.width : 0 }, (_, value) => String(value)).filter(
    (value) => !next.has(value),
  );
  return {
    registers,
    width: count.width,
    method: 'run',
    start: BigInt(count.start),
    states: Array.from(next, ([value, targets]) => ({
      value: BigInt(value),
      next: Array.from(targets, (to) => ({ to: BigInt(to), when: [[]] })),
    })),
    unused: !count.explored
      ? null
      : unused.map((value) => ({
          value: BigInt(value),
          fate: trapped.has(value) ? 'trapped' : 'returns',
          within: null,
          to: [],
        })),
    count: index,
  };
}

function startOf({ prediction }: StatesContext, { id }: Register): bigint | null {
  const { start } = prediction.registers[id];
  return /^[01]+$/.test(start) ? BigInt(`0b${start}`) : null;
}

/** Whether what clears it is a port, which rests between the edges told of here. */
function isClearedFromOutside({ nodes }: Netlist, { asynchronous }: Register): boolean {
  return asynchronous.every(({ control }) => nodes.op[sourceBit(nodes, control).node] === Op.input);
}

/** Resets are released, and an input that a person holds is held. By key of the bit. */
function fixedLevels(
  { network, prediction, netlist }: StatesContext,
  registers: readonly RegisterId[],
): ReadonlyMap<number, 0 | 1> {
  const { inputs, resets } = prediction.drive;
  const synchronous = registers.flatMap((id) => network.registers[id].synchronous);
  const fixed = new Map<number, 0 | 1>();
  for (const { active, bit } of [...resets, ...synchronous])
    fixed.set(bitKey(sourceBit(netlist.nodes, bit)), active === 'high' ? 0 : 1);
  for (const { signal, value } of inputs.filter(isHeld))
    for (const [index, bit] of bitsOfPort(netlist, signal).entries()) {
      const digit = digitAt(value, index);
      if (digit === '0' || digit === '1') fixed.set(bitKey(bit), digit === '1' ? 1 : 0);
    }
  return fixed;
}

/** Ports of which a condition cannot have what it likes: clocks, resets, and what a person holds. */
function heldPorts({ netlist, prediction }: StatesContext): ReadonlySet<NodeId> {
  const { clocks, inputs, resets } = prediction.drive;
  const ports = inputs.filter(isHeld).flatMap(({ signal }) => bitsOfPort(netlist, signal));
  const driven = [...clocks, ...resets].map(({ bit }) => sourceBit(netlist.nodes, bit));
  return new Set([...ports, ...driven].map(({ node }) => node));
}

function isHeld({ moves, source }: DriveInput): boolean {
  return source === 'given' && moves === null;
}

/** As they come from outside, least significant first. */
function bitsOfPort({ nodes, signals }: Netlist, signal: SignalId): readonly Bit[] {
  const { node, width } = signals[signal];
  return Array.from({ length: width }, (_, bit) => sourceBit(nodes, { node, bit }));
}
