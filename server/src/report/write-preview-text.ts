// A preview as text: every edge of the drive with what it causes below it, indented by cause, and the readings that follow.
// Drawn waveforms are for the page; this is for reading along.

import { changeWords } from '../explain/words';
import type { PreviewData, PreviewLink, PreviewReading } from './preview-data';
import { whatIfLines } from './write-text-what-if';
import { layOut, type Section } from './text-layout';
import { timeWords } from '../text/time-words';

export function writePreviewText(preview: PreviewData): string {
  return layOut([
    { title: preview.top ?? 'no top', lines: preview.headline },
    ...edgeSections(preview),
    ...preview.readings.map(readingSection),
    {
      title: 'glitches',
      lines: preview.glitches.map((mark) => `${timeWords(mark.at)}  ${preview.traces[mark.trace].name}: ${mark.words}`),
    },
    { title: 'what if', lines: whatIfLines(preview.whatIf) },
    { title: 'not seen', lines: preview.cautions },
    ...(preview.cut === null ? [] : [{ title: 'cut', lines: [preview.cut] }]),
  ]);
}

/** One section per change of the drive that caused something; the others are summed up in none. */
function edgeSections({ links }: PreviewData): readonly Section[] {
  const effects = effectsOf(links);
  return links.flatMap((link, index) => {
    const lines = link.cause >= 0 ? [] : linesBelow(links, effects, index);
    return lines.length === 0 ? [] : [{ title: titleOf(link), lines }];
  });
}

function titleOf({ after, at, before, signal }: PreviewLink): string {
  return `${timeWords(at)}  ${signal} ${changeWords(before, after)}`;
}

/** For each link, those it caused, in time order. */
function effectsOf(links: readonly PreviewLink[]): readonly (readonly number[])[] {
  const effects: number[][] = links.map(() => []);
  for (const [index, { cause }] of links.entries()) if (cause >= 0) effects[cause].push(index);
  return effects;
}

/** Depth first and without recursion: a ripple chain may be as long as it likes. */
function linesBelow(
  links: readonly PreviewLink[],
  effects: readonly (readonly number[])[],
  from: number,
): readonly string[] {
  const lines: string[] = [];
  const pending = [...effects[from]].reverse().map((index) => ({ index, depth: 0 }));
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const { depth, index } = next;
    lines.push(`${'  '.repeat(depth)}${titleOf(links[index])} (line ${links[index].span.line})`);
    for (const effect of [...effects[index]].reverse()) pending.push({ index: effect, depth: depth + 1 });
  }
  return lines;
}

/** Settled readings in decimal or by their names, each with the instant from which it holds. */
function readingSection({ bits, caption, name, names, stretches }: PreviewReading): Section {
  const settled = stretches.flatMap(({ from, value }) =>
    value === null
      ? []
      : [`${timeWords(from)}  ${names?.[value] ?? (/^[01]+$/.test(value) ? BigInt(`0b${value}`) : value)}`],
  );
  return { title: `reading ${name} (${bits.join(' ')})`, lines: [caption, ...settled].filter((line) => line !== '') };
}
