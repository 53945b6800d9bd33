// Finds the decodes that can pass a wrong value (definitions 20 to 27 and 42 of the project): which signals, by which
// transitions, how certain, and whom it endangers. What a limit kept from being looked at is said beside the answer.
// Left out: pulses that only the shape of the logic makes at a single change (`structural-hazard`), gates of a clock
// that the clock itself passes (`gated-clock`), and writes of memories, which a netlist does not hold.

import { createBitNames } from '../netlist/bit-names';
import type { Complaint } from '../text/complaint';
import { findCandidates } from './glitch-candidates';
import { findEnds } from './glitch-ends';
import { type GlitchContext, glitchesOf } from './glitch-entries';
import { type Group, groupCandidates } from './glitch-groups';
import { createWorkshop } from './glitch-parts';
import { registerBitsOf } from './glitch-sources';
import { type Followed, followStates, type StatesContext } from './glitch-states';
import { createJudge, type Tally } from './glitch-tally';
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
    const { tallies, followed } = yield* followGroup(shared, group);
    for (const tally of tallies) {
      glitches.push(...glitchesOf(context, workshop, tally, followed));
      complaints.push(...limitsOf(tally, followed, limits.states));
    }
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

function limitsOf({ candidate, limits }: Tally, followed: Followed, states: number): Complaint[] {
  const about = (reason: GlitchLimitReason, limit: number): Complaint => ({
    id: 'limit-reached',
    reason,
    args: { signal: candidate.signal, limit },
    place: candidate.place,
    related: [],
  });
  const found: Complaint[] = [];
  if (followed.limits.includes('states') || followed.limits.includes('work')) {
    found.push(about('glitch-states-limit', followed.states));
  }
  if (followed.limits.includes('inputs')) found.push(about('glitch-inputs-limit', followed.inputs.choices.length));
  if (followed.limits.includes('starts')) found.push(about('glitch-starts-limit', followed.states));
  if (limits.has('transitions')) found.push(about('glitch-transitions-limit', states));
  if (limits.has('orders')) found.push(about('glitch-orders-limit', states));
  return found;
}

/** By place; entries of one place stay as they were made. */
function inOrder<Entry extends { readonly place: Glitch['place'] }>(entries: readonly Entry[]): readonly Entry[] {
  return [...entries].sort(
    ({ place: left }, { place: right }) => left.unit - right.unit || left.start - right.start || left.end - right.end,
  );
}
