// Whether one transition makes a signal pass a wrong value, for certain or possibly, how wide, and one run to show.
// Three ways, from cheap to dear: the changes have one order; they fall into blocks (`glitch-blocks.ts`); every order is
// tried (`glitch-orders.ts`). All agree where more than one applies; a test holds them together.
//
// Why equal times are never certain: where all changes of a block can fall on one instant, the wrong value has no width
// there, and nothing says that anyone sees it (definitions 22 and 25). That is also why the ideal delay set, where an
// effect follows its cause in no time, passes a ripple's wrong values possibly, not certainly.

import { budget, type Limits } from '../budget';
import { zeroDelay } from '../delays/triple';
import type { DelayTriple } from '../netlist/netlist';
import { type Blocks, blocksOf, restlessOrder, type Steps, type TimedForest, timeForest } from './glitch-blocks';
import { type Forest, forestOf, settledAt, type Transition } from './glitch-forest';
import { forestWorld } from './glitch-forest-world';
import { GateKind } from './glitch-gates';
import { type OrdersVerdict, tryOrders, type World } from './glitch-orders';
import { type Scene, targetCone } from './glitch-scene';
import { apart, earliestRun, leastAfter, mostAfter, type Times } from './glitch-times';
import { type Pass, typicalRun, widestExtra } from './glitch-typical';
import { settledLevel } from './glitch-value';
import { findVertices, type Vertices } from './glitch-vertices';
import { clean, judgeWave, runThrough, type Verdict, type Wave } from './glitch-wave';
import { transitionWorld } from './glitch-world';

export interface Judgement {
  /** `undecided`: not every order was tried, and none of those that were is wrong. */
  readonly kind: 'clean' | 'possible' | 'certain' | 'undecided';
  readonly basis: Basis;
  /** Width of the widest level that should not be, behind the signal's own delay, ps. */
  readonly pulse: DelayTriple;
  /** Changes of the signal in one run that shows it: with typical delays where those do. */
  readonly passes: readonly Pass[];
  /** ps after the root edge when the signal has settled, at the latest; null where that is not known. */
  readonly settled: number | null;
}

/** What a verdict rests on: one order of the changes, or why there is none. */
export type Basis = 'order' | 'open-order' | 'unknown-structure' | 'unknown-bits' | 'not-all-tried';

/** Null where the signal's old or new settled value is itself unknown. */
export function judgeTransition(scene: Scene, transition: Transition, limits: Limits): Judgement | null {
  const first = settledAt(scene, transition.before, scene.target);
  const last = settledAt(scene, transition.after, scene.target);
  if (first === null || last === null) return null;
  const forest = forestOf(scene, transition);
  if (forest === null) return judgeWorld(scene, transition, limits);
  const timed = timeForest(forest);
  const observed = observedEvents(scene, forest);
  const forestCase = { scene, transition, timed, observed };
  if (observed.length < 2 && !isVague(scene)) return { ...quiet, settled: settledBy(forestCase) };
  return { ...judgeForest(forestCase, limits), settled: settledBy(forestCase) };
}

interface ForestCase {
  readonly scene: Scene;
  readonly transition: Transition;
  readonly timed: TimedForest;
  /** Events of variables that the target hears. */
  readonly observed: readonly number[];
}

/** Bits that change together in one block: 2 to that power sets are tried. */
const mostTogether = 12;

const noPulse: DelayTriple = { min: 0, typ: 0, max: 0 };
const quiet: Judgement = { kind: 'clean', basis: 'order', pulse: noPulse, passes: [], settled: null };

function judgeForest(forestCase: ForestCase, limits: Limits): Judgement {
  const { scene, transition, timed, observed } = forestCase;
  const blocks = blocksOf(timed, observed);
  const largest = Math.max(0, ...blocks.blocks.map((block) => block.length));
  if (largest > 1 && !areFree(scene, blocks, largest)) return judgeOrders(forestCase, limits);
  const byBlock = blocks.blocks.map((block) => block.map((event) => timed.forest[event]));
  const vertices = findVertices(scene, transition, byBlock);
  const found = largest <= 1 ? judgeOneOrder(forestCase, blocks, vertices) : judgeBlocks(forestCase, blocks, vertices);
  const isUnknown = vertices.may.some((may) => settledLevel(may) === null);
  const isVagueAfter = vertices.blurred.some((may, lane) => lane > 0 && settledLevel(may) === null);
  return conclude(forestCase, found, { isUnknown, isVague: isVagueAfter });
}

/** Whether all that blocks promise holds: then one walk over their sets decides. */
function areFree(scene: Scene, { together, areApart }: Blocks, largest: number): boolean {
  return together !== null && areApart && largest <= mostTogether && scene.inertia === zeroDelay;
}

interface Found extends Verdict {
  readonly basis: Basis;
  readonly example: { readonly wave: Wave; readonly at: readonly number[] } | null;
}

function judgeOneOrder({ timed, scene }: ForestCase, { blocks }: Blocks, vertices: Vertices): Found {
  const events = blocks.map(([event]) => event);
  const instants: number[] = [];
  const first = settledLevel(vertices.may[0]) ?? 0;
  events.forEach((event, index) => {
    const level = settledLevel(vertices.may[vertices.starts[index] + 1]);
    const now = instants.length % 2 === 0 ? first : 1 - first;
    if (level !== null && level !== now) instants.push(event + 1);
  });
  const wave: Wave = { first, instants };
  return { ...judgeWave(wave, timed.times, scene.inertia), basis: 'order', example: exampleOf(wave, timed.times) };
}

function exampleOf(wave: Wave, times: Times): Found['example'] {
  if (wave.instants.length < 2) return null;
  const [from, until] = wave.instants;
  return { wave, at: earliestRun(apart(times, from, until, mostAfter(times, from, until)) ?? times) };
}

/** Certain is what shows between the blocks, which lie apart; possible what some order inside them adds. */
function judgeBlocks({ timed }: ForestCase, blocks: Blocks, vertices: Vertices): Found {
  const steps = restlessOrder(blocks, vertices);
  if (steps.changes.length < 2) return { ...clean, basis: 'order', example: null };
  const sure = changesBetween(blocks, vertices);
  const certain = sure.length >= 2;
  return {
    possible: true,
    certain,
    width: { min: certain ? leastBetween(timed, blocks, sure) : 0, max: mostBetween(timed, blocks, vertices) },
    basis: certain ? 'order' : 'open-order',
    example: exampleOfSteps(timed, steps),
  };
}

/** The blocks after which, once whole, the target has another level. */
function changesBetween({ blocks }: Blocks, vertices: Vertices): number[] {
  let now = settledLevel(vertices.may[0]);
  return Array.from(blocks.keys()).filter((index) => {
    const level = settledLevel(vertices.may[vertices.starts[index] + 2 ** blocks[index].length - 1]);
    if (level === null || level === now) return false;
    now = level;
    return true;
  });
}

function leastBetween({ times }: TimedForest, { blocks }: Blocks, changes: readonly number[]): number {
  const widths = changes.slice(1).map((until, index) => {
    const from = blocks[changes[index]];
    return Math.min(
      ...from.flatMap((first) => blocks[until].map((second) => leastAfter(times, first + 1, second + 1))),
    );
  });
  const extra = widths.filter((_, index) => changes.length % 2 === 1 || index % 2 === 0);
  return Math.max(...extra);
}

/** At most as far as two events can lie apart that can each change the target. */
function mostBetween({ times }: TimedForest, { blocks }: Blocks, vertices: Vertices): number {
  const decisive = blocks.flatMap((block, index) =>
    block.filter((_, position) => canChange(vertices, vertices.starts[index], 2 ** block.length, 1 << position)),
  );
  let most = 0;
  for (const first of decisive) {
    for (const second of decisive) if (first !== second) most = Math.max(most, mostAfter(times, first + 1, second + 1));
  }
  return most;
}

function canChange({ may }: Vertices, start: number, sets: number, event: number): boolean {
  for (let set = 0; set < sets; set++) {
    if ((set & event) === 0 && may[start + set] !== may[start + (set | event)]) return true;
  }
  return false;
}

/** The events in this order, as far as their bounds let them, each as early as it can be. */
function exampleOfSteps({ times }: TimedForest, { first, order, changes }: Steps): Found['example'] {
  let bounded = times;
  order.forEach((event, index) => {
    if (index > 0) bounded = apart(bounded, order[index - 1] + 1, event + 1) ?? bounded;
  });
  return { wave: { first, instants: changes.map((event) => event + 1) }, at: earliestRun(bounded) };
}

function judgeOrders(forestCase: ForestCase, limits: Limits): Judgement {
  const { scene, transition, timed, observed } = forestCase;
  const world = forestWorld(scene, transition, timed, observed);
  const found = tryOrders(world, scene.inertia, budget({ ...limits, states: mostTried(limits) }, 'states'));
  return concludeOrders(scene, world, (instant) => timed.typical[instant - 1], found);
}

function judgeWorld(scene: Scene, transition: Transition, limits: Limits): Judgement {
  const world = transitionWorld(scene, transition);
  const found = tryOrders(world, scene.inertia, budget({ ...limits, states: mostTried(limits) }, 'states'));
  return concludeOrders(scene, world, () => 0, found);
}

/** Steps of the search per transition: a share of what the limit on states allows in all. */
export function mostTried({ states }: Limits): number {
  return Math.max(1, Math.floor(states / 16));
}

function conclude(
  { scene, transition, timed, observed }: ForestCase,
  found: Found,
  { isUnknown, isVague }: { readonly isUnknown: boolean; readonly isVague: boolean },
): Judgement {
  if (!found.possible && !isUnknown && !isVague) return quiet;
  const world = forestWorld(scene, transition, timed, observed);
  const certain = found.certain && !isUnknown;
  const basis = found.possible ? found.basis : isUnknown ? unknownBasis(scene) : 'unknown-structure';
  return shown(scene, world, (instant) => timed.typical[instant - 1], { ...found, certain, basis });
}

function concludeOrders<State>(
  scene: Scene,
  world: World<State>,
  typicalAt: (instant: number) => number,
  found: OrdersVerdict,
): Judgement {
  if (!found.possible && !found.unknown && !found.vague) {
    return found.complete ? quiet : { ...quiet, kind: 'undecided', basis: 'not-all-tried' };
  }
  return shown(scene, world, typicalAt, { ...found, basis: basisOf(scene, found) });
}

function basisOf(scene: Scene, { certain, possible, unknown, complete }: OrdersVerdict): Basis {
  if (certain) return 'order';
  if (!complete) return 'not-all-tried';
  if (possible) return 'open-order';
  return unknown ? unknownBasis(scene) : 'unknown-structure';
}

function unknownBasis({ observed, part }: Scene): Basis {
  return observed.some((variable) => part(variable).kind === 'opaque') ? 'unknown-structure' : 'unknown-bits';
}

/** The typical run where it shows a level too many, else the example. */
function shown<State>(
  scene: Scene,
  world: World<State>,
  typicalAt: (instant: number) => number,
  found: Found,
): Judgement {
  const typical = typicalRun(world, typicalAt, scene.inertia);
  const typ = widestExtra(typical);
  return {
    kind: found.certain ? 'certain' : 'possible',
    basis: found.basis,
    pulse: { min: found.width.min, typ, max: Math.max(found.width.max, typ) },
    passes: typical.length >= 2 || found.example === null ? typical : passesOf(scene, found.example),
    settled: null,
  };
}

function passesOf({ inertia }: Scene, { wave, at }: NonNullable<Found['example']>): readonly Pass[] {
  const typical = runThrough(wave, at, { rise: inertia.rise.typ, fall: inertia.fall.typ });
  // Where only a delay other than the typical one lets it through, the shortest shows it.
  return typical.length >= 2 ? typical : runThrough(wave, at, { rise: inertia.rise.min, fall: inertia.fall.min });
}

function observedEvents({ observed }: Scene, forest: Forest): readonly number[] {
  const heard = new Set(observed);
  return Array.from(forest.keys()).filter((event) => heard.has(forest[event].variable));
}

/** Whether even a single change can make it pulse: it comes out of an operator of unknown structure. */
function isVague(scene: Scene): boolean {
  const { gates } = scene.workshop.logic;
  if (scene.observed.some((variable) => scene.part(variable).kind === 'opaque')) return true;
  return targetCone(scene).some((gate) => gates.kind[gate] === GateKind.mark);
}

function settledBy({ scene, timed, observed }: ForestCase): number {
  const last = Math.max(0, ...observed.map((event) => mostAfter(timed.times, 0, event + 1)));
  return last + Math.max(scene.inertia.rise.max, scene.inertia.fall.max);
}
