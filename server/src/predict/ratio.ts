// Ratios and duties of register bits and clocks (definition 6), exact, over periods proven by the return of a state.
// What hears each other is proved together, what does not apart, so that unrelated counters do not multiply; what hears
// something unproven is not tried.

import type { ClockId } from '../clocks/network';
import type { Netlist, RegisterId } from '../netlist/netlist';
import type { ClockTiming } from './prediction';
import { type RegisterGroup, registerGroups, registersHeardBy } from './ratio-groups';
import { type RatioTargets, type RegisterRatios, surveyTargets } from './ratio-survey';
import type { RunContext } from './settled-run';

export interface Ratios {
  /** Absent where nothing was proven. */
  readonly registers: Map<RegisterId, RegisterRatios>;
  readonly clocks: Map<ClockId, ClockTiming>;
}

/** Root periods that several groups together are given, where their state alone does not bound them. */
const quickLimit = 4096;

export function* ratiosOfAll(context: RunContext): Generator<void, Ratios> {
  const ratios: Ratios = { registers: new Map(), clocks: new Map() };
  const targets = targetsOf(context);
  for (const [root] of context.network.roots.entries()) {
    const own = targets.flatMap((target, index) => (target.root === root ? [index] : []));
    yield* prove({ context, targets, root, ratios, unproven: new Set() }, own);
  }
  return ratios;
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
}

/** All together if their states come round; else half by half, down to what has to be left open. */
function* prove(proof: Proof, wanted: readonly number[]): Generator<void, void> {
  const { context, targets, root, ratios, unproven } = proof;
  for (const index of wanted) if (hearsAny(targets[index], unproven)) unproven.add(index);
  const open = wanted.filter((index) => !unproven.has(index));
  if (open.length === 0) return;
  const joined = joinTargets(open.map((index) => targets[index]));
  const survey = yield* surveyTargets(context, joined, root, limitFor(context, joined, open.length));
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

/** A state of few bits comes round within 2^bits; more is only tried in full for one group alone. */
function limitFor({ netlist, limits }: RunContext, { registers }: RatioTargets, groups: number): number {
  const bits = registers.reduce((sum, id) => sum + netlist.registers[id].width, 0);
  const isBounded = bits < 32 && 2 ** bits <= limits.period;
  return groups === 1 || isBounded ? limits.period : Math.min(quickLimit, limits.period);
}

function joinTargets(targets: readonly Target[]): RatioTargets {
  return {
    registers: targets.flatMap(({ registers }) => registers),
    clocks: targets.flatMap(({ clocks }) => clocks),
  };
}

/** Groups of registers in an order where what is heard comes first, then each clock. */
function targetsOf({ netlist, network }: RunContext): Target[] {
  const groups = registerGroups(netlist);
  const groupOf = new Map(groups.flatMap(({ registers }, index) => registers.map((id) => [id, index] as const)));
  const ofGroups = groups.map((group) => ({ ...group, clocks: [], root: rootOfGroup(network, group) }));
  const ofClocks = network.clocks.map(({ id, bit, root }) => ({
    registers: [],
    clocks: [id],
    root,
    hears: groupsHeard(netlist, groupOf, bit.node),
  }));
  return [...ofGroups, ...ofClocks];
}

function groupsHeard(
  netlist: Netlist,
  groupOf: ReadonlyMap<RegisterId, number>,
  node: Parameters<typeof registersHeardBy>[1][number],
): number[] {
  return [...new Set(registersHeardBy(netlist, [node]).map((id) => groupOf.get(id) as number))];
}

/** The root of all members; null where one has none or they differ. */
function rootOfGroup({ registers: clockings }: RunContext['network'], { registers }: RegisterGroup): number | null {
  const roots = new Set(registers.map((id) => clockings[id].root?.root ?? null));
  return roots.size === 1 ? [...roots][0] : null;
}
