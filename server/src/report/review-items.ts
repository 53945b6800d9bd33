// The review as one list of sentences with their places, for the panel and the page: each domain, clock made inside,
// crossing with what protects it, reset, output, and what was not analyzed.

import { countWords, listWords, shortListWords } from '../explain/words';
import type { Span } from '../text/place';
import type { Report } from './report';
import { coverageLines } from './write-text-findings';
import { failureWords } from './write-text-review';

export interface ReviewItem {
  /** What it is about: a name of the design, or `not analyzed`. */
  readonly about: string;
  readonly text: string;
  readonly span: Span | null;
}

export function reviewItems(report: Report): readonly ReviewItem[] {
  if (report.top === null) return [];
  const { clocks, crossings, domains, outputs, resets } = report;
  return [
    ...domains.map(({ name, registers, related, span }) => {
      const relation = related.length === 0 ? '' : `, related to ${listWords(related)}`;
      return { about: name, text: `clock domain of ${countWords(registers, 'register')}${relation}`, span };
    }),
    ...clocks.filter(({ kind }) => kind !== 'root').map(clockItem),
    ...crossings.map(crossingItem),
    ...resets.map(({ active, domains: into, kind, release, signal, span }) => ({
      about: signal,
      text: `${kind} reset, active ${active}, of ${listWords(into)}: ${release === 'raw' ? 'let go at any time' : 'let go in step with the clock'}`,
      span,
    })),
    ...outputs.map(({ form, glitchFree, name, span }) => ({
      about: name,
      text: `output, ${form}${glitchFree === null ? '' : glitchFree ? ': changes without glitches' : ': can glitch'}`,
      span,
    })),
    ...coverageLines(report).map((text) => ({ about: 'not analyzed', text, span: null })),
  ];
}

function clockItem({ from, kind, registers, signal, sound, span, why }: Report['clocks'][number]): ReviewItem {
  const verdict = [sound === null ? '' : sound ? 'sound' : 'not sound', why ?? ''].filter((part) => part !== '');
  const origin = from.length === 0 ? '' : ` from ${listWords(from)}`;
  const text = [`${kind} clock${origin} of ${countWords(registers, 'register')}`, ...verdict].join(': ');
  return { about: signal, text, span };
}

function crossingItem(crossing: Report['crossings'][number]): ReviewItem {
  const { depth, evidence, fromDomain, mtbfLog10Seconds, sources, span, status, synchronizer, to, toDomain } = crossing;
  const protection =
    synchronizer === 'none' ? 'no synchronizer' : `${synchronizer}, ${countWords(depth, 'flip-flop')} deep`;
  const reasons = [...evidence, ...(mtbfLog10Seconds === null ? [] : [failureWords(mtbfLog10Seconds)])];
  return {
    about: to,
    text: `crossing of ${shortListWords(sources, 4)} from ${fromDomain} into ${toDomain}: ${protection}, ${status}: ${reasons.join('; ')}`,
    span,
  };
}
