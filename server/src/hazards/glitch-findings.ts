// What the findings about glitches share: one finding per signal, said once for the strongest certainty, with the ends
// that the finding is about.

import type { Why } from '../clocks/network';
import type { Netlist } from '../netlist/netlist';
import type { HazardContext, RawFinding } from './context';
import type { FactValue, FindingId } from './finding';
import type { EndKind, Glitch, GlitchEnd, GlitchTransition } from './glitch';
import { togetherByPlace } from './subjects';

/** A signal's glitches with the ends that matter for one finding; never without an end. */
export interface GlitchingSignal {
  /** Certain first. */
  readonly glitches: readonly Glitch[];
  readonly ends: readonly GlitchEnd[];
}

/** Signals with an end of one of these kinds, in order of place. */
export function signalsReaching({ glitches }: HazardContext, kinds: readonly EndKind[]): readonly GlitchingSignal[] {
  const bySignal = new Map<string, Glitch[]>();
  for (const glitch of glitches) {
    const key = `${glitch.bit.node}.${glitch.bit.bit}`;
    bySignal.set(key, [...(bySignal.get(key) ?? []), glitch]);
  }
  return [...bySignal.values()].flatMap((found) => {
    const ordered = [...found].sort((left, right) => rank(left) - rank(right));
    const ends = uniqueEnds(ordered.flatMap((glitch) => glitch.ends)).filter(({ kind }) => kinds.includes(kind));
    return ends.length === 0 ? [] : [{ glitches: ordered, ends }];
  });
}

/** `glitch-into-clock`, `-reset`, `-latch`: a signal that reaches an end of this kind. */
export function findIntoEnd(context: HazardContext, id: FindingId, kind: EndKind): readonly RawFinding[] {
  return signalsReaching(context, [kind]).map((signal) => ({ ...describe(context, signal), id, weight: {} }));
}

/** All of a finding but its identifier and weight. */
export function describe(
  { netlist, network, prediction }: HazardContext,
  { glitches, ends }: GlitchingSignal,
): Omit<RawFinding, 'id' | 'weight'> {
  const [first] = glitches;
  const bits = uniqueBits(glitches);
  const root = network.registers[bits[0].register].root;
  return {
    certainty: first.certainty,
    signals: [first.signal, ...bits.map(({ name }) => name)],
    instance: instanceOf(netlist, first.signal),
    place: first.place,
    related: relatedOf(netlist, first, bits, ends),
    facts: {
      signal: first.signal,
      registers: bits.map(({ name }) => name),
      ends: ends.map(({ signal }) => signal),
      endKinds: [...new Set(ends.map(({ kind }) => kind))],
      root: root === null ? null : network.roots[root.root].name,
      delaySet: prediction.delaySet.name,
      reason: first.why.reason,
      ...transitionFacts(glitches),
      harmlessAbovePs: latestOf(ends),
    },
  };
}

export function instanceOf(netlist: Netlist, signal: string): string {
  const name = signal.replace(/\[\d+\]$/, '');
  const found = netlist.signals.find((candidate) => candidate.name === name);
  return found === undefined ? '' : netlist.instances[found.instance].path;
}

function transitionFacts(glitches: readonly Glitch[]): Readonly<Record<string, FactValue>> {
  const [{ transitions, registers }] = glitches;
  const widest = widestOf(transitions);
  const count = (certainty: Glitch['certainty']) =>
    glitches
      .filter((glitch) => glitch.certainty === certainty)
      .reduce((sum, glitch) => sum + glitch.transitions.length, 0);
  return {
    certainTransitions: count('certain'),
    possibleTransitions: count('possible'),
    from: widest.from,
    to: widest.to,
    bits: registers.length,
    passes: widest.passes.map(({ at, value }) => `${value} at ${at}`),
    widestPs: widest.pulse.max,
    widestTypPs: widest.pulse.typ,
    narrowestPs: Math.min(...transitions.map(({ pulse }) => pulse.min)),
    needsInputs: widest.witness.length > 0,
  };
}

function widestOf(transitions: readonly GlitchTransition[]): GlitchTransition {
  return transitions.reduce((most, one) => (one.pulse.max > most.pulse.max ? one : most));
}

function latestOf(ends: readonly GlitchEnd[]): number | null {
  const periods = ends.flatMap(({ harmlessAbovePs }) => harmlessAbovePs ?? []);
  return periods.length === 0 ? null : Math.max(...periods);
}

function relatedOf(
  netlist: Netlist,
  { signal }: Glitch,
  bits: Glitch['registers'],
  ends: readonly GlitchEnd[],
): RawFinding['related'] {
  const why = (reason: string, args: Why['args']): Why => ({ reason, args });
  const kinds = [...new Set(ends.map(({ kind }) => kind))];
  return [
    ...togetherByPlace(bits.map(({ register, name }) => ({ place: netlist.registers[register].place, name }))).map(
      ({ place, names }) => ({ place, why: why('glitch-source', { signal, register: names }) }),
    ),
    ...kinds.flatMap((kind) =>
      togetherByPlace(
        ends.filter((end) => end.kind === kind).map((end) => ({ place: end.place, name: end.signal })),
      ).map(({ place, names }) => ({ place, why: why(`glitch-end-${kind}`, { signal, end: names }) })),
    ),
  ];
}

function uniqueBits(glitches: readonly Glitch[]): Glitch['registers'] {
  return [...new Map(glitches.flatMap(({ registers }) => registers).map((bit) => [bit.name, bit])).values()];
}

function uniqueEnds(ends: readonly GlitchEnd[]): readonly GlitchEnd[] {
  return [...new Map(ends.map((end) => [`${end.kind} ${end.signal}`, end])).values()];
}

function rank({ certainty }: Glitch): number {
  return certainty === 'certain' ? 0 : 1;
}
