// `chains[]` and `counts[]` of the report: ripple chains with their settling, and the sequences that were followed.

import { whyWords } from '../explain/why';
import type { Count } from '../predict/prediction';
import { type DesignFacts, registerName, shortened } from './design-facts';
import { inOrder } from '../explain/places';
import type { ReportChain, ReportCount } from './report';

export function buildChains(facts: DesignFacts): readonly ReportChain[] {
  const { netlist, network, places, prediction } = facts;
  const built = network.chains.map((chain, index): ReportChain => {
    const timing = prediction.chains.find((entry) => entry.chain === index) ?? null;
    return {
      root: chain.root === null ? null : network.roots[chain.root].name,
      registers: chain.registers.map((register) => registerName(facts, register)),
      settle: timing?.settle ?? null,
      skew: timing?.skew ?? null,
      worst: timing?.worst ? { from: String(timing.worst.from), to: String(timing.worst.to) } : null,
      maxClockHz: timing?.maxClockHz ?? null,
      readableClockHz: timing?.readableClockHz ?? null,
      toggleClockHz: timing?.toggleClockHz ?? null,
      why: timing?.why ? whyWords(timing.why) : null,
      span: places.spanOf(netlist.registers[chain.registers[0]].place),
    };
  });
  return inOrder(built);
}

/** Chains first, then vector registers outside chains, each by source position. */
export function buildCounts(facts: DesignFacts): readonly ReportCount[] {
  const ofChains = facts.prediction.counts.filter(({ chain }) => chain !== null);
  const ofVectors = facts.prediction.counts.filter(({ chain }) => chain === null);
  return [ofChains, ofVectors].flatMap((counts) => inOrder(counts.map((count) => buildCount(facts, count))));
}

/** Its first member is the first stage of a chain; of a vector it is the whole of it. */
function buildCount(facts: DesignFacts, count: Count): ReportCount {
  const { netlist, places } = facts;
  const first = netlist.registers[count.registers[count.registers.length - 1]];
  return {
    registers: count.registers.map((register) => registerName(facts, register)),
    start: count.start,
    leadIn: shortened(facts, count.leadIn),
    leadInTotal: count.leadInTotal,
    values: shortened(facts, count.values),
    valuesTotal: count.valuesTotal,
    period: count.period,
    kind: count.kind,
    modulus: count.modulus,
    polynomial: count.polynomial,
    trapped: shortened(facts, count.trapped),
    trappedTotal: count.trapped.length,
    explored: count.explored,
    while: count.while,
    steps: shortened(facts, count.steps),
    stepsTotal: count.steps.length,
    why: count.why === null ? null : whyWords(count.why),
    span: places.spanOf(first.place),
  };
}
