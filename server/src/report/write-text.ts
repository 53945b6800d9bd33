// A report as text for a person at a terminal: what drives it, who follows whom and when, what it counts, what is wrong,
// what was assumed and what was not looked at. Long lists are cut here for reading; the JSON has them whole.

import { cautions } from '../explain/cautions';
import { passesWords, sequenceWords } from '../explain/sequence';
import { countWords, listWords, rateWords, shortListWords } from '../explain/words';
import type { Report, ReportChain, ReportCount, ReportRegister, Triple } from './report';
import { columns, layOut, type Section, wrapped } from './text-layout';
import { assumptionLines, coverageLines, findingLines } from './write-text-findings';
import { reviewSections } from './write-text-review';
import { latchRows } from './write-text-latches';
import { rateRows } from './write-text-rates';
import { whatIfLines } from './write-text-what-if';
import { timeWords } from '../text/time-words';

export function writeText(report: Report): string {
  return layOut([
    titleOf(report),
    { title: 'drive', lines: driveLines(report) },
    ...groupSections(report),
    ...reviewSections(report),
    { title: 'latches', lines: columns(latchRows(report)) },
    ...report.chains.map(chainSection),
    ...report.counts.map(countSection),
    { title: 'outputs', lines: outputLines(report) },
    { title: 'rates wished', lines: columns(rateRows(report)) },
    { title: 'findings', lines: findingLines(report) },
    { title: 'what if', lines: whatIfLines(report.whatIf) },
    { title: 'assumed', lines: assumptionLines(report) },
    { title: 'not analyzed', lines: coverageLines(report) },
    { title: 'not seen', lines: cautions },
  ]);
}

function titleOf({ top, files, otherTops, foretick }: Report): Section {
  const others =
    otherTops.length === 0 ? [] : [`not chosen as top: ${shortListWords(otherTops, 8)}; choose with --top`];
  const chosen = top === null ? ['no module to study'] : [];
  return {
    title: top ?? 'no top',
    lines: [...chosen, `read from ${shortListWords(files, 4)} by foretick ${foretick}`, ...others],
  };
}

function driveLines({ drive, delaySet, top }: Report): readonly string[] {
  if (top === null) return [];
  const rows = [
    ...drive.clocks.map(clockRow),
    ...drive.resets.map(({ signal, active, periods, source }) => [
      signal,
      `${active} for ${countWords(periods, 'period')}, then released`,
      sourceWords(source),
    ]),
    ...drive.inputs.map((input) => [input.signal, inputWords(input), sourceWords(input.source)]),
  ];
  return [...columns(rows), `delays: ${delayWords(delaySet)}`, ...delaySet.overrides.map(overrideWords)];
}

function clockRow({ signal, period, high, phase, source }: Report['drive']['clocks'][number]): readonly string[] {
  const words = `${periodWords(period)}, high for ${timeWords(high)}, first rise at ${timeWords(phase)}`;
  return [signal, words, sourceWords(source)];
}

/** Of many changes the first ones. */
function inputWords({ moves, value }: Report['drive']['inputs'][number]): string {
  if (moves === null) return `held at ${value}`;
  const shown = moves.changes.slice(0, changesTold).map((change) => `${change.value} at ${timeWords(change.at)}`);
  const rest = moves.changesTotal > shown.length ? [`${moves.changesTotal - shown.length} more changes`] : [];
  const again = moves.everyPs === null ? [] : [`all again every ${timeWords(moves.everyPs)}`];
  return [`${value} at first`, ...shown, ...rest, ...again].join(', ');
}

const changesTold = 8;

/** `20 ns (50 MHz)`; a period that is no whole number of ps is told by its rate. */
function periodWords(period: number | string): string {
  if (typeof period === 'number') return `${timeWords(period)} (${rateWords(1e12 / period)})`;
  const [numerator, denominator] = period.split('/').map(Number);
  return rateWords((1e12 * denominator) / numerator);
}

function sourceWords(source: string): string {
  return source === 'given' ? 'stated' : source === 'text' ? 'from the text' : 'assumed';
}

function delayWords({ name, sheet, conditions }: Report['delaySet']): string {
  return [name, conditions, sheet].filter((part) => part !== null).join('; ');
}

function overrideWords(own: Report['delaySet']['overrides'][number]): string {
  const { conditions, entries, latches, name, operators, registers, sheet } = own;
  const counts = [
    ...(registers > 0 ? [countWords(registers, 'register')] : []),
    ...(latches > 0 ? [`${latches} ${latches === 1 ? 'latch' : 'latches'}`] : []),
    ...(operators > 0 ? [countWords(operators, 'operator')] : []),
  ];
  const origin = [conditions, sheet].filter((part) => part !== null);
  return [`delays of ${name}: its own ${entries.join(', ')} (${counts.join(', ') || 'nothing'})`, ...origin].join('; ');
}

/** One section per domain, and one for the registers that belong to none. */
function groupSections({ domains, registers }: Report): readonly Section[] {
  const groups = [...domains.map(({ name }) => name), null];
  return groups.map((domain) => ({
    title: domain === null ? 'registers without a clock domain' : `clock domain ${domain}`,
    lines: [
      ...columns(inStages(registers.filter((register) => register.domain === domain)).map(registerRow)),
      ...domains.filter(({ name }) => name === domain).flatMap(leastPeriodLines),
    ],
  }));
}

function leastPeriodLines({ leastPeriod, name, why }: Report['domains'][number]): readonly string[] {
  if (leastPeriod === null) return [];
  const { from, ps, to } = leastPeriod;
  const rate = ps > 0 ? ` (${rateWords(1e12 / ps)})` : '';
  return [`least period of ${name} ${timeWords(Math.ceil(ps))}${rate}, from ${from} to ${to}: ${why}`];
}

function inStages(registers: readonly ReportRegister[]): readonly ReportRegister[] {
  return [...registers].sort((left, right) => left.stage - right.stage);
}

function registerRow(register: ReportRegister): readonly string[] {
  const { name, stage, clock, settles, ratio, constant, start, sampleSpan } = register;
  return [
    `${'  '.repeat(Math.max(0, stage - 1))}${name}`,
    `stage ${stage}`,
    `on ${clock.written} ${clock.edge}`,
    settles === null ? '' : `changes ${tripleWords(settles)} after ${edgeWords(register)}`,
    constant ? `always ${start}` : ratio === null ? '' : ratioWords(ratio),
    `line ${sampleSpan.line}`,
  ];
}

function edgeWords({ root }: ReportRegister): string {
  if (root === null) return 'its edge';
  return root.edge === 'either' ? `an edge of ${root.signal}` : `${root.signal} ${root.edge}`;
}

function ratioWords(ratio: string): string {
  const [periods, one] = ratio.split('/');
  return one === '1' ? `repeats every ${countWords(Number(periods), 'period')}` : `repeats every ${ratio} periods`;
}

/** `12 ns`, or `9 ns to 14 ns, typically 12 ns`. */
export function tripleWords({ min, typ, max }: Triple): string {
  if (min === max) return timeWords(typ);
  return `${timeWords(min)} to ${timeWords(max)}, typically ${timeWords(typ)}`;
}

function chainSection(chain: ReportChain): Section {
  const { registers, settle, worst, maxClockHz, readableClockHz, toggleClockHz, why } = chain;
  const lines: string[] = [];
  const worstStep = worst === null ? '' : `, latest on ${worst.from} to ${worst.to}`;
  if (settle !== null) lines.push(`settled ${tripleWords(settle)} after the edge that starts it${worstStep}`);
  if (maxClockHz !== null) lines.push(`every reading settles within a period below ${rateWords(maxClockHz)}`);
  if (readableClockHz !== null) lines.push(`readable at each edge up to ${rateWords(readableClockHz)}`);
  if (toggleClockHz !== null) lines.push(`its first stage toggles up to ${rateWords(toggleClockHz)}`);
  if (why !== null) lines.push(why);
  return { title: `chain ${registers.join(', ')}`, lines };
}

const shownValues = 64;

function countSection(count: ReportCount): Section {
  const { registers, values, valuesTotal, leadIn, trapped, while: held } = count;
  const more = valuesTotal > shownValues ? [`… ${valuesTotal - shownValues} more`] : [];
  const lines = [
    count.why === null ? sequenceWords(count) : `${sequenceWords(count)}: ${count.why}`,
    ...wrapped([...values.slice(0, shownValues), ...more], 100),
    ...(leadIn.length > 0 ? [`before it repeats: ${shortListWords(leadIn, 16)}`] : []),
    ...(trapped.length > 0 ? [`never leaves once there: ${shortListWords(trapped, 16)}`] : []),
    ...(held.length > 0 ? [`while ${listWords(held.map(({ signal, value }) => `${signal} is ${value}`))}`] : []),
  ];
  const passes = passesWords(count);
  return { title: `reading ${registers.join(' ')}`, lines: passes === '' ? lines : [...lines, passes] };
}

function outputLines({ outputs }: Report): readonly string[] {
  return columns(
    outputs.map(({ name, form, glitchFree }) => [
      name,
      form,
      glitchFree === null ? openWords[form] : glitchFree ? 'changes without glitches' : 'can glitch',
    ]),
  );
}

/** Why nothing is said of an output's glitches. */
const openWords: Readonly<Record<Report['outputs'][number]['form'], string>> = {
  registered: '',
  decoded: 'no glitch found; one may come from how its gates are built',
  through: 'depends on what drives it',
  mixed: 'depends on what drives it',
  clock: 'depends on how it is gated',
};
