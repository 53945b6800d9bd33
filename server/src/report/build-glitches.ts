// `glitches[]` of the report: decodes that can pass a wrong value, one entry per signal, certainty and set of ends.

import { whyWords } from '../explain/why';
import type { Glitch } from '../hazards/glitch';
import { type DesignFacts, shortened } from './design-facts';
import { inOrder } from '../explain/places';
import type { ReportGlitch } from './report';

export function buildGlitches(facts: DesignFacts): readonly ReportGlitch[] {
  return inOrder(
    facts.hazards.glitches.map((glitch) => buildGlitch(facts, glitch)),
    ({ signal }) => signal,
  );
}

function buildGlitch(facts: DesignFacts, glitch: Glitch): ReportGlitch {
  return {
    signal: glitch.signal,
    certainty: glitch.certainty,
    registers: glitch.registers.map(({ name }) => name),
    transitions: shortened(facts, glitch.transitions),
    transitionsTotal: glitch.transitions.length,
    ends: glitch.ends.map(({ kind, signal, harmless, harmlessAbovePs }) => ({
      kind,
      signal,
      harmless,
      harmlessAbovePs,
    })),
    harmless: glitch.harmless,
    why: whyWords(glitch.why),
    span: facts.places.spanOf(glitch.place),
  };
}
