// What there is to tell of a declared signal: what it is, in sentences, and the account of its last change in the preview, or
// why it never changes. Of a signal that the design has several times: what all have in common, and the first one's account.

import type { Account } from '../explain/account';
import { findBits } from '../explain/find-bits';
import { assumptionWords, clockWords, latchWords, memoryWords, outputWords } from '../explain/signal-words';
import { timeWords } from '../text/time-words';
import { sharedWords } from './declared-registers';
import type { PreviewData, PreviewHeld, PreviewTrace } from './preview-data';
import type { Report, ReportOutput } from './report';
import type { Answers, Study } from './study';
import { tellAccounts } from './tell-accounts';

export interface SignalStory {
  /** Full name of the signal that account and picture are of. */
  readonly signal: string;
  readonly facts: readonly string[];
  /** Each line the cause of the one before; the first may say that there was no change. */
  readonly account: readonly string[];
}

/** `signals`: full names of what one declaration became, at least one. */
export function* tellSignal(study: Study, signals: readonly string[]): Generator<void, SignalStory> {
  const answers = yield* study.soon();
  const report = yield* answers.report();
  const [signal] = signals;
  return { signal, facts: factsOf(report, signals), account: yield* accountOf(study, answers, signal) };
}

function factsOf(report: Report, signals: readonly string[]): readonly string[] {
  const [signal] = signals;
  const isMeant = (name: string) => signals.includes(name);
  const registers = report.registers.filter((register) => isMeant(register.signal));
  const span = report.signals.find(({ name }) => name === signal)?.span;
  const others = [
    ...report.memories.filter(({ name }) => name === signal || signal.startsWith(`${name}[`)).map(memoryWords),
    ...report.latches.filter(({ name }) => signalOf(name) === signal).map(latchWords),
    ...report.clocks.filter((clock) => signalOf(clock.signal) === signal).map(clockWords),
    ...report.outputs.filter(({ name }) => name === signal).flatMap((output) => outputLines(output, registers)),
    ...report.assumptions
      .filter((assumption) => assumption.about === signal && isSame(assumption.span, span))
      .map(assumptionWords),
  ];
  const all = [...(registers.length === 0 ? [] : sharedWords(registers).lines), ...others.slice(0, mostFacts)];
  const isOneArray = report.memories.some(({ name }) => signals.every((word) => word.startsWith(`${name}[`)));
  return registers.length === 0 && signals.length > 1 && !isOneArray
    ? [...all, `${signals.length} instances: told of ${signal}`]
    : all;
}

const mostFacts = 6;

/** `u.q[3:0]` is of `u.q`. */
function signalOf(name: string): string {
  return name.replace(/\[-?\d+(?::-?\d+)?\]$/, '');
}

function isSame(left: object | null, right: object | undefined): boolean {
  return JSON.stringify(left) === JSON.stringify(right);
}

/** What passes from inputs may as well be a constant, and that a register's own port comes from it goes without saying. */
function outputLines({ form, glitchFree, name }: ReportOutput, registers: readonly unknown[]): readonly string[] {
  if (form === 'through' || (form === 'registered' && registers.length > 0)) return [];
  return [outputWords({ form, glitchFree, name })];
}

function* accountOf(study: Study, answers: Answers, signal: string): Generator<void, readonly string[]> {
  const facts = yield* answers.design();
  if (facts === null) return [];
  const data = yield* answers.preview();
  const isNamed = (name: string) => findBits(facts.netlist, name) !== null;
  const own = data.traces.filter(
    ({ name, parent }) => parent === null && (name === signal || signalOf(name) === signal),
  );
  if (own.length > 0) return accountInPreview(data, own, isNamed);
  const accounts = (yield* study.accounts(signal, data.end)) ?? [];
  const latest = [...accounts].sort((left, right) => lastStep(right) - lastStep(left)).slice(0, 1);
  return tellAccounts(latest).flatMap(({ lines }) => (lines.length > 1 ? lines.slice(1) : neverChanges(data)));
}

function lastStep({ steps }: Account): number {
  return steps.length === 0 ? -1 : steps[0].at;
}

/** From what the preview drew anyway. */
function accountInPreview(
  data: PreviewData,
  own: readonly PreviewTrace[],
  isNamed: (name: string) => boolean,
): readonly string[] {
  const changed = own.filter(({ changes }) => changes.at.length > 0);
  const latest = changed.sort((left, right) => lastOf(right.changes.at) - lastOf(left.changes.at));
  if (latest.length > 0) return chainFrom(data.links, lastOf(latest[0].changes.link), isNamed);
  return neverChanges(data, own.flatMap(({ held }) => held.slice(-1))[0]);
}

function neverChanges({ end }: PreviewData, held?: PreviewHeld): readonly string[] {
  const kept = held === undefined ? '' : `: at ${timeWords(held.at)} it ${held.words}`;
  return [`it does not change before ${timeWords(end)}${kept}`];
}

function lastOf<Item>(items: readonly Item[]): Item {
  return items[items.length - 1];
}

/** Parts of expressions are passed over, as the sentences pass over them. */
function chainFrom(links: PreviewData['links'], from: number, isNamed: (name: string) => boolean): readonly string[] {
  const lines: string[] = [];
  for (let index = from; index >= 0; index = links[index].cause) {
    if (index === from || isNamed(links[index].signal)) lines.push(links[index].words);
  }
  return lines;
}
