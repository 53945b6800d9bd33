// `clocks[]`, `domains[]`, `resets[]` and `crossings[]` of the report: the clock network in its words.

import type { Clock, Crossing, DomainId } from '../clocks/network';
import { whyWords } from '../explain/why';
import { crossingMtbf } from './crossing-mtbf';
import { type DesignFacts, domainName, fractionText, registerName, rootNames, shortened } from './design-facts';
import { inOrder } from '../explain/places';
import type { ReportClock, ReportDomain } from './report';
import type { ReportCrossing, ReportReset } from './report-crossings';

export function buildClocks(facts: DesignFacts): readonly ReportClock[] {
  return inOrder(facts.network.clocks.map((clock) => buildClock(facts, clock)));
}

function buildClock(facts: DesignFacts, clock: Clock): ReportClock {
  const { network, places, prediction } = facts;
  const timing = prediction.clocks[clock.id];
  return {
    signal: clock.name,
    kind: clock.kind,
    from: clock.fromNames,
    ratio: fractionText(timing.ratio),
    duty: fractionText(timing.duty),
    uniform: timing.uniform,
    pattern: shortened(facts, timing.pattern),
    patternTotal: timing.pattern.length,
    hertz: timing.hertz,
    sound: soundnessOf(clock),
    why: clock.gate === null ? null : whyWords(clock.gate.why),
    domain: domainName(facts, clock.domain),
    registers: network.registers.filter((register) => register.clock === clock.id).length,
    span: places.spanOf(clock.place),
  };
}

/** A strapped gate never closes or never opens: it cannot cut a pulse. */
function soundnessOf({ gate }: Clock): boolean | null {
  if (gate === null) return null;
  return gate.verdict === 'sound' || gate.verdict === 'strapped';
}

export function buildDomains(facts: DesignFacts): readonly ReportDomain[] {
  const built = facts.network.domains.map((domain) => ({
    name: domain.name,
    roots: rootNames(facts, domain.roots),
    registers: domain.registers.length,
    related: domain.related.map((other) => facts.network.domains[other].name),
    ...leastPeriodOf(facts, domain.id),
    span: facts.places.spanOf(domain.place),
  }));
  return inOrder(built, ({ name }) => name);
}

function leastPeriodOf(facts: DesignFacts, domain: DomainId): Pick<ReportDomain, 'leastPeriod' | 'why'> {
  const { found, why } = facts.prediction.leastPeriods[domain];
  const named = found && { ps: found.ps, from: registerName(facts, found.from), to: registerName(facts, found.to) };
  return { leastPeriod: named, why: whyWords(why) };
}

export function buildResets(facts: DesignFacts): readonly ReportReset[] {
  const built = facts.network.resets.map((reset) => ({
    signal: reset.name,
    active: reset.active,
    kind: reset.kind,
    release: reset.release,
    registers: reset.registers.length,
    domains: reset.domains.map((domain) => facts.network.domains[domain].name),
    span: facts.places.spanOf(reset.place),
  }));
  return inOrder(built, ({ signal }) => signal);
}

export function buildCrossings(facts: DesignFacts): readonly ReportCrossing[] {
  return inOrder(
    facts.network.crossings.map((crossing) => buildCrossing(facts, crossing)),
    ({ to }) => to,
  );
}

function buildCrossing(facts: DesignFacts, crossing: Crossing): ReportCrossing {
  const { network, places } = facts;
  const sources = crossing.from.map(({ name }) => name);
  return {
    from: sources[0] ?? '',
    sources,
    to: registerName(facts, crossing.to),
    fromDomain: network.domains[crossing.fromDomain].name,
    toDomain: network.domains[crossing.toDomain].name,
    bits: crossing.bits,
    synchronizer: crossing.synchronizer,
    depth: crossing.depth,
    status: crossing.status,
    evidence: crossing.evidence.map(whyWords),
    mtbfLog10Seconds: crossingMtbf(facts, crossing),
    span: places.spanOf(crossing.place),
  };
}
