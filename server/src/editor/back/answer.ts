// The way of one question: to the study it is about, through the stages it needs, to its answer. Every question is answered;
// what went wrong is part of the answer.

import type { Diagnostic } from 'vscode-languageserver';
import { Refusal } from '../../report/refusal';
import { diagnostics, readingDiagnostics, refusalDiagnostic } from '../features/diagnostics';
import type { PanelReply } from '../panel-messages';
import type { Answer, Findings, Question } from '../worker-messages';
import { type AskedOf, features } from './features';
import type { Files } from './files';
import type { Opened } from './open-study';
import { answerPanel } from './panel';
import { type Owner, type Scheduler, Superseded, urgencies } from './scheduler';
import type { Asked, Studies, Subject } from './studies';
import { noChoices } from '../no-choices';

export interface Answering {
  readonly files: Files;
  readonly scheduler: Scheduler;
  readonly studies: Studies;
}

/** `owner` is dropped where nobody waits any more. Never rejects. */
export async function answerQuestion(answering: Answering, question: Question, owner: Owner): Promise<Answer> {
  const answer = await attempt(answering, question, owner);
  if (question.kind !== 'panel' || answer.kind === 'result') return answer;
  return { kind: 'result', result: panelFailure(answer) };
}

async function attempt({ files, studies }: Answering, question: Question, owner: Owner): Promise<Answer> {
  try {
    const subject = subjectOf(question);
    owner.urgency = urgencyOf(question);
    if (files.openText(subject.document) === null)
      return { kind: 'failed', reason: 'unknown', words: `${subject.document} is not open` };
    const asked = studies.ask(subject, owner.urgency);
    const result = await Promise.race([answerFrom(asked, question, owner), asked.dropped]);
    return { kind: 'result', result };
  } catch (error) {
    return failureOf(question, error);
  }
}

/** A choice that a panel does not mention says nothing. */
function subjectOf(question: Question): Subject {
  if (question.kind !== 'panel') return { document: question.document, choices: noChoices };
  const { choices, document } = question.request.subject;
  return { document, choices: { ...noChoices, ...choices } };
}

function urgencyOf(question: Question): number {
  switch (question.kind) {
    case 'feature':
      return features[question.method]?.urgency ?? urgencies.background;
    case 'findings':
      return question.depth === 'reading' ? urgencies.reading : urgencies.background;
    case 'panel':
      return urgencies.shown;
  }
}

function answerFrom(asked: Asked, question: Question, owner: Owner): Promise<unknown> {
  switch (question.kind) {
    case 'feature':
      return answerFeature(asked, question, owner);
    case 'findings':
      return question.depth === 'reading'
        ? readingFindings(asked, question.document, owner)
        : wholeFindings(asked, question.document, owner);
    case 'panel':
      return asked.whole().then((opened) => asked.run(answerPanel(opened, question.request), owner));
  }
}

/** What a feature says about a design that cannot be studied as asked would mislead: it says nothing. */
async function answerFeature(
  asked: Asked,
  { document, hover, method, params }: Question & { readonly kind: 'feature' },
  owner: Owner,
): Promise<unknown> {
  const feature = features[method];
  if (feature === undefined) return null;
  const { refusal, settings, study } = feature.needs === 'text' ? await asked.reading() : await asked.whole();
  if (feature.needs === 'design' && refusal !== null) return null;
  return asked.run(feature.run(study, document, { ...params, settings, hover } as AskedOf), owner);
}

/** All of them where they are known already: who asks again hears no less than before. */
async function readingFindings(asked: Asked, document: string, owner: Owner): Promise<Findings> {
  if (asked.findings !== null) return asked.findings;
  const opened = await asked.reading();
  const found = await asked.run(readingDiagnostics(opened.study, document, opened.settings.diagnostics), owner);
  return { depth: 'reading', mark: `${opened.mark} reading`, diagnostics: withRefusal(opened, found) };
}

async function wholeFindings(asked: Asked, document: string, owner: Owner): Promise<Findings> {
  const opened = await asked.whole();
  const { mark, refusal, settings, study } = opened;
  const stage = refusal === null ? diagnostics : readingDiagnostics;
  const found = await asked.run(stage(study, document, settings.diagnostics), owner);
  asked.findings = { depth: 'whole', mark, diagnostics: withRefusal(opened, found) };
  return asked.findings;
}

function withRefusal({ refusal }: Opened, found: readonly Diagnostic[]): readonly Diagnostic[] {
  return refusal === null ? found : [refusalDiagnostic(refusal), ...found];
}

function failureOf(question: Question, error: unknown): Answer {
  if (error instanceof Superseded) return { kind: 'failed', reason: 'superseded', words: 'newer text came in between' };
  const words = error instanceof Error ? error.message : String(error);
  if (error instanceof Refusal && question.kind === 'panel') {
    const reply: PanelReply = { kind: 'failed', reason: 'refused', words };
    return { kind: 'result', result: reply };
  }
  return { kind: 'failed', reason: 'broken', words };
}

function panelFailure({ reason, words }: Answer & { readonly kind: 'failed' }): PanelReply {
  return { kind: 'failed', reason: reason === 'unknown' ? 'unavailable' : reason, words };
}
