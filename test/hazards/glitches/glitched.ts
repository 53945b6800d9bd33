// What tests of glitches share: a netlist, predicted, and its glitches as short lines.

import { limitDefaults } from '../../../server/src/budget';
import type { HazardOptions } from '../../../server/src/hazards/context';
import type { Glitch } from '../../../server/src/hazards/glitch';
import { analyzeGlitches } from '../../../server/src/hazards/glitches';
import type { Netlist } from '../../../server/src/netlist/netlist';
import { finished, type PredictOptions, predictionOf } from '../../predict/predicted';

export interface Glitched {
  readonly glitches: readonly Glitch[];
  readonly limits: readonly string[];
  /** The entry of a signal with this certainty; null where none. */
  find(signal: string, certainty: Glitch['certainty']): Glitch | null;
}

export function glitchesIn(
  netlist: Netlist,
  options: PredictOptions & { readonly hazards?: Partial<HazardOptions> } = {},
): Glitched {
  const { network, prediction } = predictionOf(netlist, options);
  const { glitches, limits } = finished(
    analyzeGlitches({
      netlist,
      network,
      prediction,
      options: { strobes: [], static: [], ...options.hazards },
      limits: { ...limitDefaults, ...options.limits },
    }),
  );
  return {
    glitches,
    limits: limits.map(({ reason, args }) => `${args.signal} ${reason}`),
    find: (signal, certainty) =>
      glitches.find((glitch) => glitch.signal === signal && glitch.certainty === certainty) ?? null,
  };
}

/** `7>8 1@30000 0@40000 [10000 10000 10000]` per transition. */
export function transitionLines(glitch: Glitch | null): string[] {
  return (glitch?.transitions ?? []).map(({ from, to, passes, pulse }) => {
    const shown = passes.map(({ at, value }) => `${value}@${at}`).join(' ');
    return `${from}>${to} ${shown} [${pulse.min} ${pulse.typ} ${pulse.max}]`;
  });
}
