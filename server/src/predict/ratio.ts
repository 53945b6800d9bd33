// Ratios and duties of register bits and clocks (definition 6), exact, over periods proven by the return of a state.
// What hears each other is tried together first, what does not never: unrelated counters would multiply. What hears
// something unproven is not tried.

import type { ClockId } from '../clocks/network';
import type { RegisterId } from '../netlist/netlist';
import type { ClockTiming } from './prediction';
import { type RegisterGroup, registerGroups, registersHeardBy } from './ratio-groups';
import { type RatioTargets, type RegisterRatios, surveyTargets } from './ratio-survey';
import { shiftRatios, toggledClock, toggleRatios } from './ratio-closed';
import { createLongPurse, type LongPurse } from './long-of-run';
import type { RunContext } from './settled-run';
import { createPurse, type Purse } from './settled-cycle';
import type { MaximalShift } from './settled-linear';
import type { EvenToggle } from './settled-toggles';

export interface Ratios {
  /** Absent where nothing was proven. */
  readonly registers: Map<RegisterId, RegisterRatios>;
  readonly clocks: Map<ClockId, ClockTiming>;
}

/** What is known without a run. */
export interface ClosedForms {
  readonly toggles: ReadonlyMap<RegisterId, EvenToggle>;
  readonly shifts: ReadonlyMap<RegisterId, MaximalShift>;
}

/** Root periods that several groups together are given. */
const quickLimit = 4096;

export function* ratiosOfAll(context: RunContext, { toggles, shifts }: ClosedForms): Generator<void, Ratios> {
  const ratios: Ratios = { registers: new Map(), clocks: new Map() };
  const { registers } = context.netlist;
  for (const [id, { power }] of toggles) ratios.registers.set(id, toggleRatios(power));
  for (const [id, shift] of shifts) ratios.registers.set(id, shiftRatios(registers[id].width, shift));
  for (const { id } of context.network.clocks) {
    const timing = toggledClock(context, toggles, id);
    if (timing !== null) ratios.clocks.set(id, timing);
  }
  const targets = targetsOf(context);
  const [purse, longPurse] = [createPurse(context.limits), createLongPurse()];
  for (const [root] of context.network.roots.entries()) {
    const own = targets.flatMap((target, index) => (target.root === root && !isKnown(ratios, target) ? [index] : []));
    const proof: Proof = { context, targets, root, ratios, unproven: new Set(), purse, longPurse };
    for (const related of relatedTargets(targets, own)) yield* prove(proof, related);
  }
  return ratios;
}

function isKnown(ratios: Ratios, { registers, clocks }: Target): boolean {
  return registers.every((id) => ratios.registers.has(id)) && clocks.every((id) => ratios.clocks.has(id));
}

/** Those that hear each other, directly or by others of them; each list ascending, in order of their first. */
function relatedTargets(targets: readonly Target[], wanted: readonly number[]): readonly (readonly number[])[] {
  const listOf = new Map(wanted.map((index) => [index, [index]]));
  for (const index of wanted) {
    for (const heard of targets[index].hears) {
      const [list, other] = [listOf.get(index), listOf.get(heard)];
      if (list === undefined || other === undefined || list === other) continue;
      const [longer, shorter] = list.length > other.length ? [list, other] : [other, list];
      for (const member of shorter) listOf.set(member, longer);
      longer.push(...shorter);
    }
  }
  return [...new Set(listOf.values())].map((list) => list.sort((left, right) => left - right));
}

interface Target extends RatioTargets {
  readonly root: number | null;
  /** Indices of the targets that it hears. */
  readonly hears: readonly number[];
}

interface Proof {
  readonly context: RunContext;
  readonly targets: readonly Target[];
  readonly root: number;
  readonly ratios: Ratios;
  readonly unproven: Set<number>;
  readonly purse: Purse;
  readonly longPurse: LongPurse;
}

/** All together if their states come round; else half by half, down to what has to be left open. */
function* prove(proof: Proof, wanted: readonly number[]): Generator<void, void> {
  const { context, targets, root, ratios, unproven, purse, longPurse } = proof;
  for (const index of wanted) if (hearsAny(targets[index], unproven)) unproven.add(index);
  const open = wanted.filter((index) => !unproven.has(index));
  if (open.length === 0) return;
  const joined = joinTargets(open.map((index) => targets[index]));
  const survey = yield* surveyTargets(context, joined, root, { limit: limitFor(proof, open), purse, longPurse });
  if (survey !== null) {
    for (const [id, found] of survey.registers) ratios.registers.set(id, found);
    for (const [id, found] of survey.clocks) ratios.clocks.set(id, found);
  } else if (open.length === 1) {
    unproven.add(open[0]);
  } else {
    const half = open.length >> 1;
    yield* prove(proof, open.slice(0, half));
    yield* prove(proof, open.slice(half));
  }
}

function hearsAny({ hears }: Target, unproven: ReadonlySet<number>): boolean {
  return hears.some((index) => unproven.has(index));
}

/**
 * What one group needs, or one that hears all the others, is tried in full. Several that may be strangers to each other
 * get a short try: their common period is a product, and each alone is quicker.
 */
function limitFor({ context, targets }: Proof, open: readonly number[]): number {
  const { period } = context.limits;
  const heard = everythingHeard(targets, open[open.length - 1]);
  const isOne = open.every((index) => heard.has(index) || targets[index].registers.length === 0);
  return isOne ? period : Math.min(quickLimit, period);
}

/** A target and all that it hears, directly or not. */
function everythingHeard(targets: readonly Target[], start: number): ReadonlySet<number> {
  const heard = new Set([start]);
  for (const index of heard) for (const next of targets[index].hears) heard.add(next);
  return heard;
}

function joinTargets(targets: readonly Target[]): RatioTargets {
  return {
    registers: targets.flatMap(({ registers }) => registers),
    clocks: targets.flatMap(({ clocks }) => clocks),
  };
}

/** Groups of registers in an order where what is heard comes first, each with the clocks that hear nothing beyond it. */
function targetsOf({ netlist, network }: RunContext): Target[] {
  const groups = registerGroups(netlist);
  const groupOf = new Map(groups.flatMap(({ registers }, index) => registers.map((id) => [id, index] as const)));
  const targets: (Target & { readonly clocks: ClockId[] })[] = groups.map((group) => ({
    ...group,
    clocks: [],
    root: rootOfGroup(network, group),
  }));
  for (const { id, bit, root } of network.clocks) {
    const hears = [...new Set(registersHeardBy(netlist, [bit.node]).map((heard) => groupOf.get(heard) as number))];
    const last = Math.max(-1, ...hears);
    const isCovered = last >= 0 && hears.every((index) => everythingHeard(targets, last).has(index));
    if (isCovered && targets[last].root === root) targets[last].clocks.push(id);
    else targets.push({ registers: [], clocks: [id], root, hears });
  }
  return targets;
}

/** The root of all members; null where one has none or they differ. */
function rootOfGroup({ registers: clockings }: RunContext['network'], { registers }: RegisterGroup): number | null {
  const roots = new Set(registers.map((id) => clockings[id].root?.root ?? null));
  return roots.size === 1 ? [...roots][0] : null;
}
