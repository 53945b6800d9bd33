// What a review signs, as text: clocks made inside the design with their verdict, every crossing with what protects it and
// why, every reset with how it is let go.

import { countWords, listWords, shortListWords } from '../explain/words';
import type { Report } from './report';
import { columns, type Section } from './text-layout';

export function reviewSections(report: Report): readonly Section[] {
  return [
    { title: 'clocks made inside', lines: clockLines(report) },
    { title: 'crossings between clock domains', lines: crossingLines(report) },
    { title: 'resets', lines: resetLines(report) },
  ];
}

function clockLines({ clocks }: Report): readonly string[] {
  return columns(
    clocks
      .filter(({ kind }) => kind !== 'root')
      .map(({ from, kind, ratio, registers, signal, sound, span, why }) => [
        signal,
        `${kind}${from.length === 0 ? '' : ` from ${listWords(from)}`}`,
        ratio === null ? '' : `ratio ${ratio}`,
        `clocks ${countWords(registers, 'register')}`,
        [sound === null ? '' : sound ? 'sound' : 'not sound', why ?? ''].filter((part) => part !== '').join(': '),
        `line ${span.line}`,
      ]),
  );
}

function crossingLines({ crossings }: Report): readonly string[] {
  const rows = columns(
    crossings.map(({ bits, depth, fromDomain, sources, span, status, synchronizer, to, toDomain }) => [
      `${shortListWords(sources, 4)} of ${fromDomain}`,
      `into ${to} of ${toDomain}`,
      countWords(bits, 'bit'),
      `${synchronizer === 'none' ? 'no synchronizer' : synchronizer}, ${countWords(depth, 'flip-flop')} deep`,
      status,
      `line ${span.line}`,
    ]),
  );
  return crossings.flatMap(({ evidence, mtbfLog10Seconds }, index) => [
    rows[index],
    ...evidence.map((why) => `  ${why}`),
    ...(mtbfLog10Seconds === null ? [] : [`  ${failureWords(mtbfLog10Seconds)}`]),
  ]);
}

/** By the constants of the delay set; a power of ten, since the number is only as good as they are. */
export function failureWords(log10Seconds: number): string {
  return `by the constants of the delay set it fails once in about 10^${log10Seconds.toFixed(1)} s`;
}

function resetLines({ resets }: Report): readonly string[] {
  return columns(
    resets.map(({ active, domains, kind, registers, release, signal, span }) => [
      signal,
      `active ${active}`,
      kind,
      release === 'raw' ? 'let go at any time' : 'let go in step with the clock',
      `resets ${countWords(registers, 'register')} of ${listWords(domains)}`,
      `line ${span.line}`,
    ]),
  );
}
