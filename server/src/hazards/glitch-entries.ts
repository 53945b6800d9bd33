// The report's entry for a signal: its transitions with a witness each, its ends with what makes them harmless.

import type { Why } from '../clocks/network';
import type { Certainty } from './finding';
import type { Glitch, GlitchEnd, GlitchTransition } from './glitch';
import type { EndPin } from './glitch-ends';
import { type FreeInputs, levelIn } from './glitch-inputs';
import type { Workshop } from './glitch-parts';
import { registerBitsOf } from './glitch-sources';
import type { Followed } from './glitch-follow';
import type { Way } from './glitch-states';
import type { FoundTransition, Tally } from './glitch-tally';
import type { Basis } from './glitch-verdict';
import type { HazardContext } from './context';
import type { GlitchReason } from './reasons-glitch';

export type GlitchContext = Omit<HazardContext, 'glitches'>;

/** At most one certain and one possible. */
export function glitchesOf(context: GlitchContext, workshop: Workshop, tally: Tally, followed: Followed): Glitch[] {
  // Whether bits of another clock ever stand as they were chosen is not known: two of them make no certainty.
  const isSure = followed.inputs.foreign < 2;
  const certain = isSure ? tally.certain : [];
  const possible = isSure ? tally.possible : [...tally.certain, ...tally.possible];
  return [
    ...glitchOf({ context, workshop, tally, followed }, 'certain', certain),
    ...glitchOf({ context, workshop, tally, followed }, 'possible', possible),
  ];
}

interface EntryInput {
  readonly context: GlitchContext;
  readonly workshop: Workshop;
  readonly tally: Tally;
  readonly followed: Followed;
}

function glitchOf(input: EntryInput, certainty: Certainty, found: readonly FoundTransition[]): Glitch[] {
  if (found.length === 0) return [];
  const { candidate } = input.tally;
  const ends = candidate.ends.map((pin) => endOf(input, pin));
  return [
    {
      bit: candidate.bit,
      signal: candidate.signal,
      certainty,
      registers: registerBitsOf(candidate.scene).map(({ register, bit, name }) => ({ register, bit, name })),
      transitions: found.map((transition) => transitionOf(input, transition)),
      ends,
      harmless: ends.every(({ harmless }) => harmless),
      why: whyOf(input, certainty, found),
      place: candidate.place,
    },
  ];
}

function transitionOf({ followed }: EntryInput, { judgement, from, to, way }: FoundTransition): GlitchTransition {
  return {
    from: numberOf(from),
    to: numberOf(to),
    passes: judgement.passes.map(({ at, level }) => ({ at, value: String(level) })),
    pulse: judgement.pulse,
    witness: witnessOf(followed.inputs, way),
  };
}

function numberOf(digits: string): string {
  return digits.includes('x') ? digits : BigInt(`0b${digits}`).toString();
}

/** Inputs at the first edge, and from then on those that change, by root period. Empty where there is no choice. */
function witnessOf(inputs: FreeInputs, last: Way): GlitchTransition['witness'] {
  if (inputs.choices.length === 0) return [];
  const ways: Way[] = [];
  for (let way: Way | null = last; way !== null; way = way.before) ways.push(way);
  let before: readonly string[] = [];
  const witness: GlitchTransition['witness'][number][] = [];
  for (const { setting, period } of ways.reverse()) {
    const levels = inputs.choices.map((_, choice) => String(levelIn(inputs, setting, choice)));
    const changed = inputs.choices.map(({ signal }, choice) => ({ signal, value: levels[choice] }));
    const set = changed.filter((_, choice) => levels[choice] !== before[choice]);
    if (set.length > 0) witness.push({ period, inputs: set });
    before = levels;
  }
  return witness;
}

/**
 * Data that settles, with the reader's setup, within the period is harmless; a reader at the other edge has half of it.
 * What reads a port or a black box's pin is not known, so nothing there is called harmless.
 */
function endOf({ context, workshop, tally }: EntryInput, pin: EndPin): GlitchEnd {
  const harmlessAbovePs = pin.kind === 'data' ? leastPeriod(context, workshop, tally, pin) : null;
  const { root } = tally.candidate.scene;
  const clock = context.prediction.drive.clocks.find((driven) => driven.root === root);
  const harmless = harmlessAbovePs !== null && clock !== undefined && clock.period >= harmlessAbovePs;
  return { kind: pin.kind, signal: pin.signal, harmless, harmlessAbovePs, place: pin.place };
}

function leastPeriod({ prediction }: GlitchContext, { network }: Workshop, tally: Tally, pin: EndPin): number | null {
  if (tally.settled === null) return null;
  const needed = tally.settled + (prediction.delaySet.setup?.max ?? 0);
  const launching = registerBitsOf(tally.candidate.scene).map(({ register }) => network.registers[register].root?.edge);
  return launching.every((edge) => edge === pin.rootEdge && edge !== 'either') ? needed : 2 * needed;
}

const reasons: Readonly<Record<Basis, GlitchReason>> = {
  order: 'glitch-fixed-order',
  'open-order': 'glitch-open-order',
  'unknown-structure': 'glitch-unknown-structure',
  'unknown-bits': 'glitch-unknown-bits',
  'not-all-tried': 'glitch-orders-untried',
};

/** Of several, the one that weighs most for the reader: an order that can happen before a structure not known. */
const weightiest: readonly Basis[] = ['order', 'open-order', 'not-all-tried', 'unknown-bits', 'unknown-structure'];

function whyOf({ context, followed }: EntryInput, certainty: Certainty, found: readonly FoundTransition[]): Why {
  const met = new Set(found.map(({ judgement }) => judgement.basis));
  const basis = weightiest.find((candidate) => met.has(candidate)) ?? 'open-order';
  const isLowered = certainty === 'possible' && basis === 'order' && followed.inputs.foreign >= 2;
  const delaySet = context.prediction.delaySet.name;
  if (!isLowered) return { reason: reasons[basis], args: { delaySet } };
  const clocks = followed.inputs.choices.flatMap(({ isForeign, clock, signal }) =>
    isForeign ? (clock ?? signal) : [],
  );
  const reason: GlitchReason = 'glitch-foreign-bits';
  return { reason, args: { delaySet, clock: [...new Set(clocks)].join(', ') } };
}
