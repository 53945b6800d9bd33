// Glitches of a preview, where they happen in the run: from the first to the last change of a decode after a root edge
// whose transition the findings name. A glitch that is only possible may show no pulse in the typical run; it is marked at
// the transition that can make it.

import { glitchWords } from '../explain/glitches';
import type { Glitch, GlitchTransition } from '../hazards/glitch';
import { sourceBit } from '../netlist/trace';
import type { Waves } from '../predict/waves';
import type { DesignFacts } from './design-facts';
import type { PreviewGlitch, PreviewTrace } from './preview-data';
import { originsOf } from '../predict/wave-query';
import { type Movement, movementsOf } from './preview-movements';

export function markGlitches(
  facts: DesignFacts,
  waves: Waves,
  traces: readonly PreviewTrace[],
): readonly PreviewGlitch[] {
  const roots = originsOf(waves);
  const marks = facts.hazards.glitches.flatMap((glitch) => {
    const trace = traces.findIndex(({ name, width }) => width === 1 && name === glitch.signal);
    return trace < 0 ? [] : marksOf({ facts, waves, roots, trace }, glitch);
  });
  return marks.sort((left, right) => left.at - right.at || left.trace - right.trace);
}

interface Run {
  readonly facts: DesignFacts;
  readonly waves: Waves;
  readonly roots: Int32Array;
  /** Index of the trace of the decode. */
  readonly trace: number;
}

function marksOf(run: Run, glitch: Glitch): readonly PreviewGlitch[] {
  const { netlist } = run.facts;
  const bits = glitch.registers.map(({ bit, register }) => ({ node: netlist.registers[register].node, bit }));
  const transitions = new Map(
    glitch.transitions.map((transition) => [`${transition.from} ${transition.to}`, transition]),
  );
  return movementsOf(run.waves, run.roots, bits).flatMap((movement) => {
    const transition = transitions.get(`${decimal(movement.before)} ${decimal(movement.after)}`);
    return transition === undefined ? [] : [markOf(run, glitch, movement, transition)];
  });
}

function markOf(run: Run, glitch: Glitch, movement: Movement, transition: GlitchTransition): PreviewGlitch {
  const pulse = pulseIn(run, glitch, movement) ?? { at: movement.from, until: movement.from + transition.pulse.max };
  return {
    trace: run.trace,
    ...pulse,
    certainty: glitch.certainty,
    harmless: glitch.harmless,
    pulse: transition.pulse,
    from: transition.from,
    to: transition.to,
    words: glitchWords(glitch, transition),
  };
}

/** From the first to the last change of the decode that the movement's root edges cause; null where it does not come back. */
function pulseIn(
  { facts, roots, waves }: Run,
  glitch: Glitch,
  movement: Movement,
): { at: number; until: number } | null {
  const changes = Array.from(waves.changesOf(sourceBit(facts.netlist.nodes, glitch.bit)));
  const own = changes.filter((change) => movement.roots.has(roots[change])).map((change) => waves.changes.time[change]);
  return own.length < 2 ? null : { at: own[0], until: own[own.length - 1] };
}

/** Decimal of binary digits; unknown digits stay as they are and match nothing. */
function decimal(digits: string): string {
  return /^[01]+$/.test(digits) ? String(BigInt(`0b${digits}`)) : digits;
}
