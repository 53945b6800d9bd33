// The way of one question: to the study it is about, through the stages it needs, to its answer. Every question is answered;
// what went wrong is part of the answer.

import type { Diagnostic } from 'vscode-languageserver';
import { Refusal } from '../../report/refusal';
import { diagnostics, readingDiagnostics, refusalDiagnostic } from '../features/diagnostics';
import { noWorkspace } from '../features/workspace-view';
import { workspaceSymbols } from '../features/workspace-symbols';
import type { PanelReply, PanelRequest } from '../panel-messages';
import type { Answer, Findings, FindingsDepth, Question } from '../worker-messages';
import type { Answering } from './answering';
import { type AskedOf, features } from './features';
import type { Opened } from './open-study';
import { gather } from './gather';
import { answerPanel, earlyMark } from './panel';
import { type Owner, Superseded, urgencies } from './scheduler';
import type { Asked, Subject } from './studies';
import { noChoices } from '../no-choices';

/** Who waits for an answer. */
export interface Asker {
  /** On whose account work is done for it now; one that was dropped is of no further use. */
  owner: Owner;
  /** Nobody waits any more, and the owner was dropped. */
  isGone: boolean;
}

/** Never rejects. */
export async function answerQuestion(answering: Answering, question: Question, asker: Asker): Promise<Answer> {
  const answer = await attempt(answering, question, asker);
  if (question.kind !== 'panel' || answer.kind === 'result') return answer;
  return { kind: 'result', result: panelFailure(answer) };
}

async function attempt(answering: Answering, question: Question, asker: Asker): Promise<Answer> {
  const { files, keeper } = answering;
  try {
    const { owner } = asker;
    owner.urgency = urgencyOf(question);
    if (question.kind === 'symbols')
      return { kind: 'result', result: workspaceSymbols(await keeper.ready(owner.urgency), question.query) };
    const subject = subjectOf(question);
    if (files.openText(subject.document) === null)
      return { kind: 'failed', reason: 'unknown', words: `${subject.document} is not open` };
    return { kind: 'result', result: await answerFromStudies(answering, subject, question, asker) };
  } catch (error) {
    return failureOf(error);
  }
}

/**
 * Studies that one question may outlive: another file, a setting or the index changed, and the text that was asked about
 * did not. Editors show nothing at all for a question that fails.
 */
const mostStudies = 8;

async function answerFromStudies(
  answering: Answering,
  subject: Subject,
  question: StudyQuestion,
  asker: Asker,
): Promise<unknown> {
  const { files, studies } = answering;
  const text = files.openText(subject.document);
  for (let study = 1; ; study++) {
    try {
      const asked = studies.ask(subject, asker.owner.urgency);
      return await Promise.race([answerFrom(answering, asked, question, asker.owner), asked.dropped]);
    } catch (error) {
      const isOpen = !asker.isGone && files.openText(subject.document) === text;
      if (!(error instanceof Superseded) || !isOpen || study === mostStudies) throw error;
      asker.owner = { urgency: urgencyOf(question) };
    }
  }
}

/** A question about a document. */
type StudyQuestion = Exclude<Question, { readonly kind: 'symbols' }>;

/** A choice that a panel does not mention says nothing. */
function subjectOf(question: StudyQuestion): Subject {
  if (question.kind !== 'panel') return { document: question.document, choices: noChoices };
  const { choices, document } = question.request.subject;
  return { document, choices: { ...noChoices, ...choices } };
}

function urgencyOf(question: Question): number {
  switch (question.kind) {
    case 'feature':
      return features[question.method]?.urgency ?? urgencies.background;
    case 'findings':
      return findingsUrgency[question.depth];
    case 'panel':
      // A file holds all that is found, glitches too: nothing that is looked at waits for it.
      return question.request.kind === 'file' ? urgencies.search : urgencies.shown;
    case 'symbols':
      return urgencies.asked;
  }
}

const findingsUrgency = {
  reading: urgencies.reading,
  early: urgencies.background,
  whole: urgencies.search,
} as const satisfies Record<FindingsDepth, number>;

function answerFrom(answering: Answering, asked: Asked, question: StudyQuestion, owner: Owner): Promise<unknown> {
  switch (question.kind) {
    case 'feature':
      return answerFeature(answering, asked, question, owner);
    case 'findings':
      return findingsOf(asked, question, owner);
    case 'panel':
      return answerOfPanel(answering, asked, question.request, owner);
  }
}

/** What a feature says about a design that cannot be studied as asked would mislead: it says nothing. */
async function answerFeature(
  answering: Answering,
  asked: Asked,
  { document, fillsIn, hover, isUntouched, method, params }: Question & { readonly kind: 'feature' },
  owner: Owner,
): Promise<unknown> {
  const feature = features[method];
  if (feature === undefined) return null;
  if (feature.atFirst !== undefined && isUntouched && asked.findings === null) {
    owner.urgency = urgencies.reading;
    return asked.run(feature.atFirst((await asked.reading()).study, document), owner);
  }
  const opened = feature.needs === 'text' ? await asked.reading() : await asked.whole();
  const { refusal, settings, study } = opened;
  if (feature.needs === 'design' && refusal !== null) return null;
  const parser = await answering.parser;
  const about = { ...params, settings, hover, fillsIn, parser, workspace: noWorkspace } as AskedOf;
  const further = await asked.run(feature.further?.(study, document, about) ?? nothing(), owner);
  if (further === null) return asked.run(feature.run(study, document, about), owner);
  const { check, view } = await gather(answering, opened, further, owner);
  const result = await asked.run(feature.run(study, document, { ...about, workspace: view }), owner);
  check();
  return result;
}

// biome-ignore lint/correctness/useYield: a stage without work
function* nothing(): Generator<void, null> {
  return null;
}

/** A module may also be seen from the designs of the workspace that it is part of. */
async function answerOfPanel(
  { changed, keeper }: Answering,
  asked: Asked,
  request: PanelRequest,
  owner: Owner,
): Promise<PanelReply> {
  const opened = await asked.whole();
  const reply = await asked.run(answerPanel(opened, request), owner);
  if ('mark' in reply && reply.mark === earlyMark(opened.mark)) void tellWhenSearched(asked, opened, request, changed);
  if (reply.kind !== 'preview') return reply;
  const index = await keeper.ready(owner.urgency);
  const own = reply.offers.tops;
  const above = index.unitsAbove(own).flatMap(({ unit }) => (unit.what === 'module' ? [unit.name] : []));
  return { ...reply, offers: { ...reply.offers, tops: [...new Set([...own, ...above])] } };
}

/** A panel that shows what is told without the search for glitches asks again once it has ended. */
async function tellWhenSearched(
  asked: Asked,
  { study }: Opened,
  { subject }: PanelRequest,
  changed: Answering['changed'],
): Promise<void> {
  if (asked.isAwaited) return;
  asked.isAwaited = true;
  try {
    await asked.run(study.design(), { urgency: urgencies.search });
    changed([subject.document]);
  } catch (error) {
    // Newer text came in, and that is told anyway.
    if (!(error instanceof Superseded)) throw error;
  }
}

function findingsOf(asked: Asked, { depth, document }: FindingsQuestion, owner: Owner): Promise<Findings> {
  switch (depth) {
    case 'reading':
      return readingFindings(asked, document, owner);
    case 'early':
      return earlyFindings(asked, document, owner);
    case 'whole':
      return wholeFindings(asked, document, owner);
  }
}

type FindingsQuestion = Question & { readonly kind: 'findings' };

/** All of them where they are known already: who asks again hears no less than before. */
async function readingFindings(asked: Asked, document: string, owner: Owner): Promise<Findings> {
  if (asked.findings !== null) return asked.findings;
  const opened = await asked.reading();
  const found = await asked.run(readingDiagnostics(opened.study, document, opened.settings.diagnostics), owner);
  return { depth: 'reading', mark: `${opened.mark} reading`, diagnostics: withRefusal(opened, found) };
}

/** What is known without the search for glitches, unless that is soon at its end. */
async function earlyFindings(asked: Asked, document: string, owner: Owner): Promise<Findings> {
  const opened = await asked.whole();
  const { mark, refusal, settings, study } = opened;
  if (refusal !== null) return wholeFindings(asked, document, owner);
  const answers = await asked.run(study.soon(), owner);
  if (answers !== study.early) return wholeFindings(asked, document, owner);
  const found = await asked.run(diagnostics(study, answers, document, settings.diagnostics), owner);
  if (asked.findings?.depth !== 'whole')
    asked.findings = { depth: 'early', mark: `${mark} early`, diagnostics: withRefusal(opened, found) };
  return asked.findings;
}

async function wholeFindings(asked: Asked, document: string, owner: Owner): Promise<Findings> {
  const opened = await asked.whole();
  const { mark, refusal, settings, study } = opened;
  const stage =
    refusal === null
      ? diagnostics(study, study, document, settings.diagnostics)
      : readingDiagnostics(study, document, settings.diagnostics);
  const found = await asked.run(stage, owner);
  asked.findings = { depth: 'whole', mark, diagnostics: withRefusal(opened, found) };
  return asked.findings;
}

function withRefusal({ refusal }: Opened, found: readonly Diagnostic[]): readonly Diagnostic[] {
  return refusal === null ? found : [refusalDiagnostic(refusal), ...found];
}

function failureOf(error: unknown): Answer {
  if (error instanceof Superseded) return { kind: 'failed', reason: 'superseded', words: 'newer text came in between' };
  const words = error instanceof Error ? error.message : String(error);
  if (error instanceof Refusal) return { kind: 'failed', reason: 'refused', words };
  return { kind: 'failed', reason: 'broken', words };
}

function panelFailure({ reason, words }: Answer & { readonly kind: 'failed' }): PanelReply {
  return { kind: 'failed', reason: reason === 'unknown' ? 'unavailable' : reason, words };
}
