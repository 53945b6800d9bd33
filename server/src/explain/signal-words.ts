// What a signal is in the design beside a register: a latch, a clock, an output, an input that is driven by assumption. One
// sentence each.

import { countWords, listWords, rateWords } from './words';

/** Of the report; names in full. */
export interface LatchStory {
  readonly name: string;
  readonly gate: { readonly signal: string; readonly active: 'high' | 'low' } | null;
}

export function latchWords({ gate, name }: LatchStory): string {
  return gate === null
    ? `${name} is a latch of cross-coupled gates`
    : `${name} is a latch, open while ${gate.signal} is ${gate.active}`;
}

export interface MemoryStory {
  readonly name: string;
  readonly words: number;
  /** Bits of a word. */
  readonly width: number;
  readonly ports: readonly {
    readonly kind: 'read' | 'write';
    readonly clock: string | null;
    readonly edge: 'rising' | 'falling' | null;
  }[];
}

/** `m is a memory of 1024 words of 8 bits, written on clk rising, read on clk rising and without a clock`. */
export function memoryWords({ name, ports, width, words }: MemoryStory): string {
  const size = `${countWords(words, 'word')} of ${countWords(width, 'bit')}`;
  const by = (kind: 'read' | 'write') => {
    const ways = ports
      .filter((port) => port.kind === kind)
      .map(({ clock, edge }) => (clock === null ? 'without a clock' : `on ${clock} ${edge ?? ''}`.trimEnd()));
    return ways.length === 0 ? '' : `, ${kind === 'read' ? 'read' : 'written'} ${listWords([...new Set(ways)])}`;
  };
  return `${name} is a memory of ${size}${by('write')}${by('read')}`;
}

export interface ClockStory {
  readonly signal: string;
  readonly kind: 'root' | 'inverted' | 'derived' | 'gated' | 'switched' | 'shared';
  readonly from: readonly string[];
  readonly hertz: number | null;
  /** Of gated and switched clocks. */
  readonly sound: boolean | null;
  readonly registers: number;
}

/** `q[0] is a clock derived from clk, at 25 MHz: it clocks 1 register`. */
export function clockWords({ from, hertz, kind, registers, signal, sound }: ClockStory): string {
  const origin = kind === 'root' || kind === 'shared' || from.length === 0 ? '' : ` from ${listWords(from)}`;
  const rate = hertz === null ? '' : `, as driven at ${rateWords(hertz)}`;
  const doubt = sound === false ? ', and the way it is switched can cut a pulse' : '';
  return `${signal} is ${clockKinds[kind]}${origin}${rate}: it clocks ${countWords(registers, 'register')}${doubt}`;
}

const clockKinds: Readonly<Record<ClockStory['kind'], string>> = {
  root: 'a root clock',
  inverted: 'an inverted clock',
  derived: 'a clock derived',
  gated: 'a gated clock',
  switched: 'a switched clock',
  shared: 'a clock on a net with several drivers',
};

export interface OutputStory {
  readonly name: string;
  readonly form: 'registered' | 'decoded' | 'mixed' | 'clock';
  /** Null where it is not known. */
  readonly glitchFree: boolean | null;
}

export function outputWords({ form, glitchFree, name }: OutputStory): string {
  const pulses = glitchFree === false ? ', and can pulse where it should not' : '';
  return `${name} ${outputForms[form]}${pulses}`;
}

const outputForms: Readonly<Record<OutputStory['form'], string>> = {
  registered: 'comes straight from registers',
  decoded: 'is decoded from registers by logic',
  mixed: 'comes in part from registers, in part through logic',
  clock: 'carries a clock',
};

export function assumptionWords({ reason, value }: { readonly reason: string; readonly value: string }): string {
  return `assumed: ${value} (${reason})`;
}
