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
import { type Blocks, blocksOf } from './glitch-blocks';
import { type Basis, type Example, type ForestCase, type Found, timeForest } from './glitch-case';
import type { LastTimed, Timing } from './glitch-last-timed';
import { type Forest, forestOf, settledAt, type Transition } from './glitch-forest';
import { forestWorld } from './glitch-forest-world';
import { judgeBlocks, judgeOneOrder } from './glitch-judge-blocks';
import { keyOf } from './glitch-key';
import { type OrdersVerdict, tryOrders, type World } from './glitch-orders';
import { isVague, type Scene } from './glitch-scene';
import { mostAfter } from './glitch-times';
import { type Pass, typicalRun, widestExtra } from './glitch-typical';
import { settledLevel } from './glitch-value';
import { findVertices } from './glitch-vertices';
import { runThrough } from './glitch-wave';
import { judgeWide } from './glitch-wide';
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
  /** What it took, in settings of the target tried. */
  readonly work: number;
  /** Whether it follows from the levels of the scene's actors alone, or from what those sample too. */
  readonly hangsOn: 'actors' | 'samples';
}

/** Null where the signal's old or new settled value is itself unknown, which the actors alone decide. `lastTimed`: of one netlist. */
export function judgeTransition(
  scene: Scene,
  transition: Transition,
  limits: Limits,
  lastTimed: LastTimed = { value: null },
): Judgement | null {
  const first = settledAt(scene, transition.before, scene.target);
  const last = settledAt(scene, transition.after, scene.target);
  if (first === null || last === null) return null;
  const timing = timingOf(scene, transition, lastTimed);
  if (timing === null) return judgeWorld(scene, transition, limits);
  const forestCase = { scene, transition, ...timing };
  if (timing.observed.length < 2 && !isVague(scene)) return { ...quiet, settled: settledBy(forestCase) };
  return { ...judgeForest(forestCase, timing.blocks, limits), settled: settledBy(forestCase) };
}

/** Signals that hear the same bits are asked about one transition one after the other: it is timed once. */
function timingOf(scene: Scene, transition: Transition, lastTimed: LastTimed): Timing | null {
  const { root, actors, observed, isKnotted } = scene;
  const key = keyOf(transition, actors);
  const known = lastTimed.value;
  const isSame =
    known !== null &&
    known.root === root &&
    known.key === key &&
    known.isKnotted === isKnotted &&
    areEqual(known.actors, actors) &&
    areEqual(known.observed, observed);
  if (isSame) return known.timing;
  const forest = forestOf(scene, transition);
  const timing = forest === null ? null : timingOfForest(scene, forest);
  lastTimed.value = { root, key, isKnotted, actors, observed, timing };
  return timing;
}

function timingOfForest(scene: Scene, forest: Forest): Timing {
  const timed = timeForest(forest);
  const observed = observedEvents(scene, forest);
  return { timed, observed, blocks: blocksOf(timed, observed) };
}

function areEqual(left: readonly number[], right: readonly number[]): boolean {
  return left === right || (left.length === right.length && left.every((number, index) => number === right[index]));
}

/** Bits that change together in one block: up to here 2 to that power sets are tried. */
const mostTogether = 12;

/** What every judgement takes at least, and each step of a search. */
const leastWork = 64;

const noPulse: DelayTriple = { min: 0, typ: 0, max: 0 };
const quiet: Judgement = {
  kind: 'clean',
  basis: 'order',
  pulse: noPulse,
  passes: [],
  settled: null,
  work: leastWork,
  hangsOn: 'actors',
};

function judgeForest(forestCase: ForestCase, blocks: Blocks, limits: Limits): Judgement {
  const { scene, transition, timed } = forestCase;
  const largest = Math.max(0, ...blocks.blocks.map((block) => block.length));
  if (largest > 1 && !areFree(scene, blocks)) return judgeOrders(forestCase, limits);
  if (largest > mostTogether) return judgeWideBlocks(forestCase, blocks, limits);
  const byBlock = blocks.blocks.map((block) => block.map((event) => timed.forest[event]));
  const vertices = findVertices(scene, transition, byBlock);
  const found = largest <= 1 ? judgeOneOrder(forestCase, blocks, vertices) : judgeBlocks(forestCase, blocks, vertices);
  const isUnknown = vertices.may.some((may) => settledLevel(may) === null);
  const isVagueAfter = vertices.blurred.some((may, lane) => lane > 0 && settledLevel(may) === null);
  const work = leastWork + vertices.count;
  return { ...conclude(forestCase, found, { isUnknown, isVague: isVagueAfter }), work };
}

/** Whether all that blocks promise holds: then their sets of changes decide. */
function areFree(scene: Scene, { together, areApart }: Blocks): boolean {
  return together !== null && areApart && scene.inertia === zeroDelay;
}

function judgeWideBlocks(forestCase: ForestCase, blocks: Blocks, limits: Limits): Judgement {
  const wide = judgeWide(forestCase, blocks, mostTried(limits) * workPerTry);
  const work = 2 ** mostTogether;
  if (wide === 'open') return { ...quiet, kind: 'undecided', basis: 'not-all-tried', work };
  return { ...conclude(forestCase, wide.found, wide), work };
}

/** Gates evaluated for one step of the search. */
const workPerTry = 64;

function judgeOrders(forestCase: ForestCase, limits: Limits): Judgement {
  const { scene, transition, timed, observed } = forestCase;
  const world = forestWorld(scene, transition, timed, observed);
  const found = tryOrders(world, scene.inertia, budget({ ...limits, states: mostTried(limits) }, 'states'));
  const judged = concludeOrders(scene, world, (instant) => timed.typical[instant - 1], found);
  return { ...judged, work: leastWork * found.steps };
}

function judgeWorld(scene: Scene, transition: Transition, limits: Limits): Judgement {
  const world = transitionWorld(scene, transition);
  const found = tryOrders(world, scene.inertia, budget({ ...limits, states: mostTried(limits) }, 'states'));
  return { ...concludeOrders(scene, world, () => 0, found), work: leastWork * found.steps, hangsOn: 'samples' };
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
    work: leastWork,
    hangsOn: 'actors',
  };
}

function passesOf({ inertia }: Scene, { wave, at }: Example): readonly Pass[] {
  const typical = runThrough(wave, at, { rise: inertia.rise.typ, fall: inertia.fall.typ });
  // Where only a delay other than the typical one lets it through, the shortest shows it.
  return typical.length >= 2 ? typical : runThrough(wave, at, { rise: inertia.rise.min, fall: inertia.fall.min });
}

function observedEvents({ observed }: Scene, forest: Forest): readonly number[] {
  const heard = new Set(observed);
  return Array.from(forest.keys()).filter((event) => heard.has(forest[event].variable));
}

function settledBy({ scene, timed, observed }: ForestCase): number {
  const last = Math.max(0, ...observed.map((event) => mostAfter(timed.times, 0, event + 1)));
  return last + Math.max(scene.inertia.rise.max, scene.inertia.fall.max);
}
