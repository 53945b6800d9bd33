// What a module holds, in a few words for the line above it: `4 registers · 1 clock · ripple chain of 4 · counts up,
// modulo 16`. Of a module that stands in the design several times only what all of its instances have in common is said.

import { type Sequence, sequenceWords } from './sequence';
import { countWords, listWords } from './words';

/** Of one instance, with everything below it. */
export interface ModuleContents {
  /** As the report lists them: a vector clocked together is one. */
  readonly registers: number;
  readonly latches: number;
  /** Root clocks of its registers and latches. */
  readonly clocks: number;
  /** How many registers each ripple chain has that lies wholly inside. */
  readonly chains: readonly number[];
  readonly sequences: readonly (Sequence & { readonly while: readonly InputValue[] })[];
}

interface InputValue {
  readonly signal: string;
  readonly value: string;
}

/** `instances`: at least one. */
export function moduleWords(instances: readonly ModuleContents[]): string {
  const count = instances.length === 1 ? '' : countWords(instances.length, 'instance');
  const parts = [
    common('registers', instances.map(storageWords)),
    common('clocks', instances.map(clocksWords)),
    common('ripple chains', instances.map(chainsWords)),
    common('sequences', instances.map(sequencesWords)),
  ];
  return [count, ...parts].filter((part) => part !== '').join(' · ');
}

function common(what: string, words: readonly string[]): string {
  return new Set(words).size === 1 ? words[0] : `${what}: differs by instance`;
}

function storageWords({ latches, registers }: ModuleContents): string {
  if (registers + latches === 0) return 'no registers';
  const parts = [registers > 0 ? countWords(registers, 'register') : '', latches > 0 ? latchWords(latches) : ''];
  return listWords(parts.filter((part) => part !== ''));
}

function latchWords(count: number): string {
  return `${count} ${count === 1 ? 'latch' : 'latches'}`;
}

function clocksWords({ clocks }: ModuleContents): string {
  return clocks === 0 ? '' : countWords(clocks, 'clock');
}

function chainsWords({ chains }: ModuleContents): string {
  if (chains.length === 0) return '';
  const longest = Math.max(...chains);
  return chains.length === 1
    ? `ripple chain of ${longest}`
    : `${chains.length} ripple chains, the longest of ${longest}`;
}

/** The first with a kind of its own, and how many more there are. */
function sequencesWords({ sequences }: ModuleContents): string {
  const named = sequences.filter(({ kind, period }) => kind !== 'other' && period !== null && period > 1);
  if (named.length === 0) return '';
  const more = named.length === 1 ? '' : ` · ${countWords(named.length - 1, 'more sequence')}`;
  return `${sequenceWords(named[0])}${whileWords(named[0].while)}${more}`;
}

function whileWords(held: readonly InputValue[]): string {
  if (held.length === 0) return '';
  if (held.length > 2) return ` while ${held.length} inputs are held`;
  return ` while ${listWords(held.map(({ signal, value }) => `${signal} is ${value}`))}`;
}
