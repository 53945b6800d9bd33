// A glitch in a few words: how wide, on which transition, and what it reaches.

import type { EndKind, Glitch, GlitchTransition } from '../hazards/glitch';
import type { DelayTriple } from '../netlist/netlist';
import { listWords } from './words';
import { timeWords } from '../text/time-words';

const endNames: Readonly<Record<EndKind, string>> = {
  clock: 'a clock pin',
  reset: 'an asynchronous control',
  latch: 'a latch gate',
  memory: 'a memory write',
  tristate: 'a tri-state enable',
  crossing: 'another clock domain',
  output: 'a port',
  data: 'the data of a register',
  'black-box': 'a module that is not given',
};

/** `pulse of 5 ns on 7→8, reaches a port`; `possible pulse on 1→2, harmless: reaches the data of a register`. */
export function glitchWords(
  glitch: Pick<Glitch, 'certainty' | 'ends' | 'harmless'>,
  transition: GlitchTransition,
): string {
  const { from, pulse, to } = transition;
  const width = pulse.max > 0 ? ` of ${widthWords(pulse)}` : '';
  const certainty = glitch.certainty === 'possible' ? 'possible ' : '';
  const reached =
    glitch.ends.length === 0 ? '' : `, ${glitch.harmless ? 'harmless: ' : ''}reaches ${endsWords(glitch.ends)}`;
  return `${certainty}pulse${width} on ${from}→${to}${reached}`;
}

/** The kinds of ends, each once. */
export function endsWords(ends: readonly { readonly kind: EndKind }[]): string {
  return listWords([...new Set(ends.map(({ kind }) => endNames[kind]))]);
}

function widthWords({ max, min }: DelayTriple): string {
  return min === max ? timeWords(max) : `${timeWords(min)} to ${timeWords(max)}`;
}
