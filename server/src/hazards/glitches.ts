// Finds the decodes that can pass a wrong value (definitions 20 to 27 and 42 of the project): which signals, by which
// transitions, how certain, and whom it endangers. What a limit kept from being looked at is said beside the answer.
// Left out: pulses that only the shape of the logic makes at a single change (`structural-hazard`), gates of a clock
// that the clock itself passes (`gated-clock`), and writes of memories, which a netlist does not hold.

import { createBitNames } from '../netlist/bit-names';
import type { Limits } from '../budget';
import type { Prediction } from '../predict/prediction';
import type { Complaint } from '../text/complaint';
import { findCandidates } from './glitch-candidates';
import { findEnds } from './glitch-ends';
import { type GlitchContext, glitchesOf } from './glitch-entries';
import { type Extent, type Group, groupCandidates } from './glitch-groups';
import { createWorkshop, type Workshop } from './glitch-parts';
import { registerBitsOf } from './glitch-sources';
import { type Followed, followStates } from './glitch-follow';
import type { Knows, OnEdge, StatesContext } from './glitch-states';
import { createStarts } from './glitch-start';
import { createSearches, type Search, type Searches, withNames, withoutNames } from './glitch-searches';
import { searchKeyOf } from './glitch-search-key';
import { asked } from './glitch-asked';
import { createJudge, joinTallies, type Tally } from './glitch-tally';
import { mostTried } from './glitch-verdict';
import { createVerdicts, type Verdicts } from './glitch-verdicts';
import type { Glitch } from './glitch';
import type { GlitchLimitReason } from './reasons-glitch';

export interface GlitchAnalysis {
  /** In order of place; certain before possible. */
  readonly glitches: readonly Glitch[];
  /** `limit-reached`: signals of which not everything was looked at. */
  readonly limits: readonly Complaint[];
}

export function* findGlitches(context: GlitchContext): Generator<void, readonly Glitch[]> {
  return (yield* analyzeGlitches(context)).glitches;
}

/** Yields after a fixed amount of work. `searches`: what earlier ones came to is taken over, and the answer is the same. */
export function* analyzeGlitches(
  context: GlitchContext,
  searches: Searches = createSearches(),
): Generator<void, GlitchAnalysis> {
  const { netlist, network, prediction, limits } = context;
  const names = createBitNames(netlist);
  const workshop = createWorkshop({ netlist, network, delaySet: prediction.delaySet });
  const candidates = yield* findCandidates(
    workshop,
    findEnds(netlist, network, (node) => names.nameOf({ node, bit: 0 })),
    names,
  );
  const isFixed = (variable: number): boolean => isConstant(workshop, prediction, variable);
  const starts = createStarts({ workshop, prediction, limits });
  const shared: GroupContext = {
    verdicts: createVerdicts(),
    workshop,
    prediction,
    names,
    limits,
    starts,
    isFixed,
    static: context.options.static,
  };
  const glitches: Glitch[] = [];
  const complaints: Complaint[] = [];
  for (const group of yield* groupCandidates(candidates, isFixed)) {
    const found = yield* searchOrKeep(shared, group, searches);
    for (const tally of found.tallies) glitches.push(...glitchesOf(context, workshop, tally));
    complaints.push(...limitsOf(found, limits));
  }
  searches.finish();
  return { glitches: inOrder(glitches), limits: inOrder(complaints) };
}

function isConstant({ netlist, logic }: Workshop, { registers }: Prediction, variable: number): boolean {
  const { bit, kind } = logic.variables[variable];
  return kind === 'register' && registers[netlist.nodes.aux[bit.node]].constant;
}

interface GroupContext extends StatesContext {
  readonly verdicts: Verdicts;
}

interface FollowContext extends GroupContext {
  /** Collects how states were followed. */
  readonly ways: Set<Followed['how']>;
}

interface FollowedGroup {
  readonly tallies: readonly Tally[];
  readonly followed: Followed;
}

function* searchOrKeep(context: GroupContext, group: Group, searches: Searches): Generator<void, Search> {
  const { names, workshop } = context;
  const key = searchKeyOf(context, group);
  const kept = searches.find(key.text);
  if (kept !== null)
    return withNames(kept, { workshop, names, candidates: group.candidates, variables: key.variables });
  const ways = new Set<Followed['how']>();
  const found = yield* askAboutSilent(yield* followGroup({ ...context, ways }, group), context);
  const { journey, limits, starts, states } = found.followed;
  const search = { tallies: found.tallies, limits, starts, states, settings: journey.inputs.settings };
  if (!ways.has('walk')) searches.keep(key.text, withoutNames(search, key.variables));
  return search;
}

/** Shares of the limit for following the nearest bits, and for following more of them to refute what those found. */
const nearestShare = 1 / 4;
const nearerShare = 1 / 8;

/**
 * Everything that matters, where that can be followed to the end. Else the nearest bits with all others free: where that
 * comes to an end, what it does not find cannot happen. What it finds a wider look may still refute.
 */
function* followGroup(context: FollowContext, group: Group): Generator<void, FollowedGroup> {
  const exact = group.whole === null ? null : yield* followExtent(context, group, group.whole, 1);
  if (exact !== null && (isWhole(exact) || group.nearest.cut.length === 0)) return exact;
  const nearest = yield* followExtent(context, group, group.nearest, nearestShare);
  const wider = yield* lookWider(context, group, nearest);
  if (exact === null) return wider;
  return {
    tallies: exact.tallies.map((tally, index) => joinTallies(tally, wider.tallies[index])),
    followed: wider.followed,
  };
}

function* lookWider(context: FollowContext, group: Group, nearest: FollowedGroup): Generator<void, FollowedGroup> {
  const hasFound = nearest.tallies.some(({ certain, possible }) => certain.length + possible.length > 0);
  if (group.nearer === null || !hasFound) return nearest;
  const nearer = yield* followExtent(context, group, group.nearer, nearerShare);
  return isWhole(nearer) ? nearer : nearest;
}

/** Of signals of which nothing was found although not all was looked at: whether they can glitch in any state at all. */
function* askAboutSilent(found: FollowedGroup, context: StatesContext): Generator<void, FollowedGroup> {
  const { journey } = found.followed;
  const tallies: Tally[] = [];
  for (const tally of found.tallies) {
    const isOpen = isSilent(tally) && !(isWhole(found) && tally.limits.length === 0);
    tallies.push(isOpen ? yield* asked(tally, journey, context) : tally);
  }
  return { ...found, tallies };
}

function isSilent({ certain, possible }: Tally): boolean {
  return certain.length + possible.length === 0;
}

function isWhole({ followed }: FollowedGroup): boolean {
  return followed.limits.length === 0;
}

function* followExtent(
  context: FollowContext,
  group: Group,
  extent: Extent,
  share: number,
): Generator<void, FollowedGroup> {
  const limits = { ...context.limits, states: Math.max(1, Math.floor(context.limits.states * share)) };
  const judges = group.candidates.map((candidate) => {
    const bits = registerBitsOf(candidate.scene).map(({ variable }) => variable);
    return createJudge(candidate, bits, { limits, verdicts: context.verdicts });
  });
  const onEdge: OnEdge = (transition, way) => {
    for (const judge of judges) judge.look(transition, way);
  };
  const knows: Knows = (candidate, transition) => judges[candidate].knows(transition);
  const followed = yield* followStates({ ...context, limits }, group, extent, onEdge, knows);
  context.ways.add(followed.how);
  return { tallies: judges.map((judge) => judge.tally(followed.journey.inputs)), followed };
}

/**
 * One complaint, the weightiest, for all signals that were followed together and of which nothing was found or proven: where a
 * glitch stands in the list, the reader is warned already.
 */
function limitsOf({ limits: met, settings, starts, states, tallies }: Search, limits: Limits): Complaint[] {
  const silent = tallies.filter((tally) => isSilent(tally) && !tally.isProven);
  const reaching = (limit: 'transitions' | 'orders') => silent.some((tally) => tally.limits.includes(limit));
  if (met.includes('states') || met.includes('work')) return about(silent, 'glitch-states-limit', states);
  if (met.includes('inputs')) return about(silent, 'glitch-inputs-limit', settings);
  if (met.includes('starts')) return about(silent, 'glitch-starts-limit', starts);
  if (reaching('transitions')) return about(silent, 'glitch-transitions-limit', silent[0].judged);
  return reaching('orders') ? about(silent, 'glitch-orders-limit', mostTried(limits)) : [];
}

function about(tallies: readonly Tally[], reason: GlitchLimitReason, limit: number): Complaint[] {
  if (tallies.length === 0) return [];
  const [{ candidate }] = tallies;
  const names = tallies.slice(0, mostNamed).map((tally) => tally.candidate.signal);
  const signal = tallies.length > mostNamed ? `${names.join(', ')}, …` : names.join(', ');
  return [{ id: 'limit-reached', reason, args: { signal, limit }, place: candidate.place, related: [] }];
}

/** Signals named in one complaint. */
const mostNamed = 4;

/** By place; entries of one place stay as they were made. */
function inOrder<Entry extends { readonly place: Glitch['place'] }>(entries: readonly Entry[]): readonly Entry[] {
  return [...entries].sort(
    ({ place: left }, { place: right }) => left.unit - right.unit || left.start - right.start || left.end - right.end,
  );
}
