// `decoded-glitch`: a decode passes a wrong value on the way to an end other than a clock, reset or latch gate, which
// have findings of their own (definition 42 of the project). A finding for each signal with a dangerous end; all others
// of one block in one hint, since what reads a port may well not mind.

import type { FindingRule, HazardContext, RawFinding } from './context';
import type { EndKind, GlitchEnd } from './glitch';
import { describe, type GlitchingSignal, signalsReaching } from './glitch-findings';
import { togetherByPlace } from './subjects';

export const decodedGlitch: FindingRule = {
  id: 'decoded-glitch',
  find(context) {
    const signals = signalsReaching(context, ownKinds);
    const isHarmful = ({ ends }: GlitchingSignal) => ends.some((end) => isDangerous(context, end));
    return [
      ...signals.filter(isHarmful).map((signal) => findOne(context, signal)),
      ...hints(
        context,
        signals.filter((signal) => !isHarmful(signal)),
      ),
    ];
  },
};

const ownKinds: readonly EndKind[] = ['memory', 'tristate', 'crossing', 'output', 'data', 'black-box'];

function isDangerous({ options }: HazardContext, { kind, signal }: GlitchEnd): boolean {
  if (kind === 'memory' || kind === 'tristate' || kind === 'crossing') return true;
  return kind === 'output' && options.strobes.some((strobe) => strobe === signal || signal.startsWith(`${strobe}[`));
}

function findOne(context: HazardContext, signal: GlitchingSignal): RawFinding {
  return { ...describe(context, signal), id: 'decoded-glitch', weight: { dangerous: true } };
}

/** One per instance of a block, at its first decode; the others are related places. */
function hints(context: HazardContext, signals: readonly GlitchingSignal[]): readonly RawFinding[] {
  const byInstance = new Map<string, RawFinding[]>();
  for (const signal of signals) {
    const found: RawFinding = { ...describe(context, signal), id: 'decoded-glitch', weight: { dangerous: false } };
    byInstance.set(found.instance, [...(byInstance.get(found.instance) ?? []), found]);
  }
  return [...byInstance.values()].map(gather);
}

function gather(found: readonly RawFinding[]): RawFinding {
  const first = found.find(({ certainty }) => certainty === 'certain') ?? found[0];
  const others = found.filter((one) => one !== first);
  return {
    ...first,
    signals: [...new Set(found.flatMap(({ signals }) => signals))],
    related: [
      ...first.related,
      ...togetherByPlace(others.map(({ place, facts }) => ({ place, name: String(facts.signal) }))).map(
        ({ place, names }) => ({ place, why: { reason: 'glitch-also', args: { signal: names } } }),
      ),
    ],
    facts: { ...first.facts, decodes: found.map(({ facts }) => String(facts.signal)) },
  };
}
