// A report as a review in Markdown: every domain, clock, crossing, reset and output with its verdict, every finding, and
// what was not looked at, so that whoever signs it knows what was judged and what was not.

import { failureWords } from './write-text-review';
import { cautions } from '../explain/cautions';
import { countWords, rateWords } from '../explain/words';
import { timeWords } from '../text/time-words';
import { code, plain, table } from './markdown';
import type { Report, ReportFinding } from './report';
import { whatIfLines } from './write-text-what-if';
import { placeWords } from './write-text-findings';

/** `states`: Markdown of the states of registers, one part each; written elsewhere, since they are drawn too. */
export function writeMarkdown(report: Report, states: readonly (readonly string[])[] = []): string {
  const sections = [
    ['Drive', driveLines(report)],
    ['Clock domains', domainLines(report)],
    ['Clocks made inside', clockLines(report)],
    ['Ripple chains', chainLines(report)],
    ['Crossings between domains', crossingLines(report)],
    ['Transfers with unequal arrival', transferLines(report)],
    ['Resets', resetLines(report)],
    ['States', states.flatMap((part, index) => (index === 0 ? part : ['', ...part]))],
    ['Outputs', outputLines(report)],
    ['Findings', findingLines(report.findings.filter(({ accepted }) => accepted === null))],
    ['Accepted findings', findingLines(report.findings.filter(({ accepted }) => accepted !== null))],
    ...(report.whatIf === null
      ? []
      : [['What if', whatIfLines(report.whatIf).map((line) => `- ${plain(line)}`)] as const]),
    ['Assumed', assumptionLines(report)],
    ['Not analyzed', coverageLines(report)],
    ['Not seen', cautions.map((caution) => `- ${plain(caution)}`)],
  ] as const;
  const written = sections.flatMap(([title, lines]) => [
    '',
    `## ${title}`,
    '',
    ...(lines.length > 0 ? lines : ['None.']),
  ]);
  return `${[...titleLines(report), ...written].join('\n')}\n`;
}

function titleLines({ delaySet, files, foretick, top }: Report): readonly string[] {
  return [
    `# Timing review${top === null ? '' : ` of ${code(top)}`}`,
    '',
    `Read from ${files.map(code).join(', ')} by Foretick ${plain(foretick)}; delays: ${plain(delaySet.name)}${delaySet.conditions === null ? '' : `, ${plain(delaySet.conditions)}`}.`,
  ];
}

const sourceWords = {
  given: 'stated',
  text: 'from the text',
  inferred: 'assumed',
  name: 'assumed',
  setting: 'assumed',
};

function driveLines({ drive }: Report): readonly string[] {
  return table(
    ['signal', 'drive', 'from'],
    [
      ...drive.clocks.map(({ high, period, phase, signal, source }) => [
        code(signal),
        `clock, ${typeof period === 'number' ? timeWords(period) : `${period} ps`}, high for ${timeWords(high)}, first rise at ${timeWords(phase)}`,
        sourceWords[source],
      ]),
      ...drive.resets.map(({ active, periods, signal, source }) => [
        code(signal),
        `reset, active ${active} for ${countWords(periods, 'period')}`,
        sourceWords[source],
      ]),
      ...drive.inputs.map(({ moves, signal, source, value }) => [
        code(signal),
        moves === null
          ? `held at ${code(value)}`
          : `${code(value)} at first, then ${countWords(moves.changesTotal, 'change')}`,
        sourceWords[source],
      ]),
    ],
  );
}

function domainLines({ domains }: Report): readonly string[] {
  return table(
    ['domain', 'registers', 'related to', 'least period'],
    domains.map(({ leastPeriod, name, registers, related, why }) => [
      code(name),
      String(registers),
      related.map(code).join(', ') || 'none',
      leastPeriod === null
        ? plain(why ?? 'not told')
        : `${timeWords(Math.ceil(leastPeriod.ps))}, from ${code(leastPeriod.from)} to ${code(leastPeriod.to)}`,
    ]),
  );
}

function clockLines({ clocks }: Report): readonly string[] {
  return table(
    ['clock', 'kind', 'made from', 'ratio', 'verdict', 'registers'],
    clocks
      .filter(({ kind }) => kind !== 'root')
      .map(({ from, kind, ratio, registers, signal, sound, why }) => [
        code(signal),
        kind,
        from.map(code).join(', ') || 'none',
        ratio ?? 'not told',
        sound === null ? plain(why ?? '') : `${sound ? 'sound' : 'not sound'}${why === null ? '' : `: ${plain(why)}`}`,
        String(registers),
      ]),
  );
}

function chainLines({ chains }: Report): readonly string[] {
  return table(
    ['root', 'stages', 'settles within', 'at most'],
    chains.map(({ maxClockHz, registers, root, settle }) => [
      root === null ? 'none' : code(root),
      registers.map(code).join(' → '),
      settle === null ? 'not told' : timeWords(settle.max),
      maxClockHz === null ? 'not told' : rateWords(maxClockHz),
    ]),
  );
}

function crossingLines({ crossings }: Report): readonly string[] {
  return table(
    ['from', 'to', 'bits', 'protection', 'status', 'evidence'],
    crossings.map(
      ({ bits, depth, evidence, fromDomain, mtbfLog10Seconds, sources, status, synchronizer, to, toDomain }) => [
        `${sources.map(code).join(', ')} (${code(fromDomain)})`,
        `${code(to)} (${code(toDomain)})`,
        String(bits),
        `${synchronizer}, ${countWords(depth, 'flip-flop')} deep`,
        status,
        [...evidence, ...(mtbfLog10Seconds === null ? [] : [failureWords(mtbfLog10Seconds)])].map(plain).join('; '),
      ],
    ),
  );
}

function transferLines({ transfers }: Report): readonly string[] {
  return table(
    ['from', 'to', 'least setup margin', 'least hold margin'],
    transfers.map(({ from, hold, setup, to }) => [code(from), code(to), timeWords(setup.min), timeWords(hold.min)]),
  );
}

function resetLines({ resets }: Report): readonly string[] {
  return table(
    ['reset', 'kind', 'release', 'flip-flop groups', 'domains'],
    resets.map(({ active, domains, kind, registers, release, signal }) => [
      `${code(signal)}, active ${active}`,
      kind,
      release,
      String(registers),
      domains.map(code).join(', '),
    ]),
  );
}

function outputLines({ outputs }: Report): readonly string[] {
  const verdict = (glitchFree: boolean | null) =>
    glitchFree === null ? 'not told' : glitchFree ? 'changes without glitches' : 'can glitch';
  return table(
    ['output', 'form', 'verdict'],
    outputs.map(({ form, glitchFree, name }) => [code(name), form, verdict(glitchFree)]),
  );
}

function findingLines(findings: readonly ReportFinding[]): readonly string[] {
  return findings.flatMap(({ accepted, certainty, id, message, severity, span }) => [
    `- **${severity}** ${code(id)}${certainty === null ? '' : ` (${certainty})`} at ${code(placeWords(span))}: ${plain(message)}`,
    ...(accepted === null ? [] : [`  - accepted: ${plain(accepted.reason)}`]),
  ]);
}

function assumptionLines({ assumptions }: Report): readonly string[] {
  return table(
    ['about', 'taken', 'why'],
    assumptions.map(({ about, reason, value }) => [code(about), plain(value), plain(reason)]),
  );
}

function coverageLines({ coverage }: Report): readonly string[] {
  const { assumed, blackBoxes, checked, limits, notChecked, skipped, unrooted } = coverage;
  return [
    `- transfers and crossings: ${checked} judged, ${assumed} under an assumption, ${notChecked} not judged`,
    ...skipped.map(({ message, span }) => `- not read at ${code(placeWords(span))}: ${plain(message)}`),
    ...blackBoxes.map(({ instance, module }) => `- ${code(instance)} of module ${code(module)}, which is not given`),
    ...unrooted.map((name) => `- ${code(name)} has no single clock: its timing is unknown`),
    ...limits.map(({ limit, name }) => `- limit ${code(name)} (${limit}) reached`),
  ];
}
