// An account in plain words: `q[3] rose at 347 ns because its clock q[2] fell at 342 ns (line 12)`, one line per cause,
// back to the drive. Parts of expressions without a name are passed over: their named neighbors tell the story.

import type { Account } from './account';
import type { AccountStep, DoubtKind } from './account-steps';
import type { HeldReason } from './account-held';
import type { Operand } from './account-operands';
import { neverWords } from './never-words';
import { changeWords, listWords } from './words';
import { timeWords } from '../text/time-words';

/** Lines, the answer first, then what was read for it; each further line is the cause of the one before. */
export function accountWords(account: Account): readonly string[] {
  const steps = account.steps.filter(({ signal }, index) => index === 0 || signal !== null);
  const [first, ...causes] = steps.map((step, index) => stepWords(step, steps[index + 1] ?? null));
  const chain = first === undefined ? [] : [first, ...readingLines(steps[0]), ...causes];
  if (account.never.length > 0) return [openingWords(account), ...neverLines(account)];
  const told = account.outcome === 'held' || account.outcome === 'steady' ? [openingWords(account), ...chain] : chain;
  return [...told, ...latencyLines(account)];
}

function openingWords({ at, held, signal, steps, to }: Account): string {
  if (held !== null) return `${signal} kept ${to} at ${timeWords(at)} ${heldWords(held)}`;
  const since = steps.length === 0 ? 'it has not changed since the start' : `since ${timeWords(steps[0].at)}`;
  return `${signal} is ${to} at ${timeWords(at)}: nothing reaches it at that instant, ${since}`;
}

function neverLines({ never }: Account): readonly string[] {
  return [...never.map(neverWords), 'this is so in the run that is shown; with other inputs it may change'];
}

/** A single leg is told by its own line, and one that takes no time adds nothing. */
function latencyLines({ latency }: Account): readonly string[] {
  const legs = (latency?.parts ?? []).flatMap(({ ps, signal }) => (ps === 0 ? [] : [`${signal} ${timeWords(ps)}`]));
  if (latency === null || legs.length < 2) return [];
  return [`in all ${timeWords(latency.ps)} from ${latency.from}: ${listWords(legs)}`];
}

function readingLines({ after, doubt, operands, standard, text, what }: AccountStep): readonly string[] {
  const verb = what === 'sampled' ? 'sampled' : 'became';
  const read = operands.length === 0 ? [] : [`it ${verb} ${after}, with ${operandWords(operands)}`];
  return standard === null ? read : [...read, standardWords(text, standard, doubt)];
}

/** Both evaluations, where they part (definition 15). */
function standardWords(text: string, digit: string, doubt: DoubtKind | null): string {
  if (doubt === 'perhaps-edge')
    return `the standard's evaluation takes that for an edge and gives ${text} ${digit} here; hardware may not have seen one`;
  return `the standard's evaluation gives ${text} ${digit} here, since an unknown condition counts as false; hardware may take either branch`;
}

/** One change and its cause, if it has one. */
export function stepWords(step: AccountStep, cause: AccountStep | null): string {
  const effect = happening(step);
  if (cause === null) return step.what === 'drive' ? `${effect}, as driven` : effect;
  return `${effect} because ${causeWords(step, cause)} (line ${step.span.line})${doubtWords(step)}`;
}

function happening({ after, at, before, isContent, text }: AccountStep): string {
  return `${text} ${isContent ? 'was written' : changeWords(before, after)} at ${timeWords(at)}`;
}

function causeWords(step: AccountStep, cause: AccountStep): string {
  const happened = happening(cause);
  switch (step.what) {
    case 'sampled':
      return `its clock ${happened}`;
    case 'asynchronous':
      return asynchronousWords(step, cause, happened);
    case 'latch':
      return cause.signal === step.control?.signal ? `its gate ${happened}` : `${happened} while its gate is open`;
    default:
      return happened;
  }
}

function asynchronousWords({ control }: AccountStep, cause: AccountStep, happened: string): string {
  if (control === null) return happened;
  if (cause.signal === control.signal) return `${happened}, which loads it while ${control.active}`;
  return `${happened} while ${control.signal} is ${control.active}`;
}

function doubtWords({ doubt }: AccountStep): string {
  return doubt === null ? '' : `, ${doubtWordsOf(doubt)}`;
}

/** Why a sampled value is old or new, and nobody can say which. */
export function doubtWordsOf(doubt: DoubtKind): string {
  switch (doubt) {
    case 'race':
      return 'a race: data and clock came together, so old or new value';
    case 'perhaps-edge':
      return 'perhaps: the clock came from or went to an unknown level';
    case 'setup-hold':
      return 'uncertain: the data, or a control that let go, moved too close to the clock edge, so old or new value';
    case 'crossing':
      return 'uncertain: the data came from an unrelated clock just then, so old or new value; one is drawn';
  }
}

export function heldWords(held: HeldReason): string {
  const line = `(line ${held.span.line})`;
  switch (held.kind) {
    case 'other-edge':
      return `because it acts on ${held.clock} ${held.edge} only ${line}`;
    case 'control':
      return `because ${held.control} holds it while ${held.active} ${line}`;
    case 'not-enabled':
      return `because it is assigned only if ${held.condition}${withWords(held.operands)} ${line}`;
    case 'same-value':
      return `because it sampled ${held.value}, which it already held${withWords(held.operands)} ${line}`;
  }
}

function withWords(operands: readonly Operand[]): string {
  return operands.length === 0 ? '' : `, with ${operandWords(operands)}`;
}

/** Neighboring bits of one vector are told as one: `state[2:0] at 011`. */
function operandWords(operands: readonly Operand[]): string {
  const groups = new Map<string, Operand[]>();
  for (const operand of operands) {
    const vector = operand.signal.replace(/\[-?\d+\]$/, '');
    groups.set(vector, [...(groups.get(vector) ?? []), operand]);
  }
  return listWords([...groups].flatMap(([vector, bits]) => vectorWords(vector, bits)));
}

function vectorWords(vector: string, bits: readonly Operand[]): readonly string[] {
  const sorted = [...bits].sort((left, right) => indexOf(right, vector) - indexOf(left, vector));
  const [high, low] = [sorted[0], sorted[sorted.length - 1]].map((bit) => indexOf(bit, vector));
  if (bits.length === 1 || high - low !== bits.length - 1)
    return bits.map(({ signal, value }) => `${signal} at ${value}`);
  return [`${vector}[${high}:${low}] at ${sorted.map(({ value }) => value).join('')}`];
}

function indexOf({ signal }: Operand, vector: string): number {
  return Number(signal.slice(vector.length + 1, -1));
}
