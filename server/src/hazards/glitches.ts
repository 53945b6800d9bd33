// Finds the decodes that can pass a wrong value (definitions 20 to 27 and 42 of the project): which signals, by which
// transitions, how certain, and whom it endangers. What a limit kept from being looked at is said beside the answer.
// Left out: pulses that only the shape of the logic makes at a single change (`structural-hazard`), gates of a clock
// that the clock itself passes (`gated-clock`), and writes of memories, which a netlist does not hold.

import { createBitNames } from '../netlist/bit-names';
import type { Limits } from '../budget';
import type { Complaint } from '../text/complaint';
import { findCandidates } from './glitch-candidates';
import { findEnds } from './glitch-ends';
import { type GlitchContext, glitchesOf } from './glitch-entries';
import { type Group, groupCandidates } from './glitch-groups';
import { createWorkshop } from './glitch-parts';
import { registerBitsOf } from './glitch-sources';
import { type Followed, followStates } from './glitch-follow';
import type { StatesContext } from './glitch-states';
import { createJudge, mostJudged, type Tally } from './glitch-tally';
import { mostTried } from './glitch-verdict';
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

/** Yields after a fixed amount of work. */
export function* analyzeGlitches(context: GlitchContext): Generator<void, GlitchAnalysis> {
  const { netlist, network, prediction, limits } = context;
  const names = createBitNames(netlist);
  const workshop = createWorkshop({ netlist, network, delaySet: prediction.delaySet });
  const candidates = yield* findCandidates(
    workshop,
    findEnds(netlist, network, (node) => names.nameOf({ node, bit: 0 })),
    names,
  );
  const shared: StatesContext = { workshop, prediction, names, limits, static: context.options.static };
  const glitches: Glitch[] = [];
  const complaints: Complaint[] = [];
  for (const group of groupCandidates(candidates)) {
    const found = yield* followGroup(shared, group);
    for (const tally of found.tallies) glitches.push(...glitchesOf(context, workshop, tally, found.followed));
    complaints.push(...limitsOf(found, limits));
  }
  return { glitches: inOrder(glitches), limits: inOrder(complaints) };
}

interface FollowedGroup {
  readonly tallies: readonly Tally[];
  readonly followed: Followed;
}

function* followGroup(context: StatesContext, group: Group): Generator<void, FollowedGroup> {
  const judges = group.candidates.map((candidate) => {
    const bits = registerBitsOf(candidate.scene).map(({ variable }) => variable);
    return createJudge(candidate, bits, context.limits);
  });
  const followed = yield* followStates(context, group, (transition, way) => {
    for (const judge of judges) judge.look(transition, way);
  });
  return { tallies: judges.map(({ tally }) => tally), followed };
}

/**
 * One complaint per reason for all signals that were followed together and of which nothing was found: where a glitch
 * stands in the list, the reader is warned already.
 */
function limitsOf({ tallies, followed }: FollowedGroup, limits: Limits): Complaint[] {
  const { inputs } = followed;
  const hasReached = (limit: Followed['limits'][number]) => followed.limits.includes(limit);
  const silent = tallies.filter(({ certain, possible }) => certain.length + possible.length === 0);
  const reaching = (limit: 'transitions' | 'orders') => silent.filter((tally) => tally.limits.has(limit));
  return [
    ...about(hasReached('states') || hasReached('work') ? silent : [], 'glitch-states-limit', followed.states),
    ...about(hasReached('inputs') ? silent : [], 'glitch-inputs-limit', inputs.settings),
    ...about(hasReached('starts') ? silent : [], 'glitch-starts-limit', followed.starts),
    ...about(reaching('transitions'), 'glitch-transitions-limit', mostJudged(limits)),
    ...about(reaching('orders'), 'glitch-orders-limit', mostTried(limits)),
  ];
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
