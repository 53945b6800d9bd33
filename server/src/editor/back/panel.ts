// Answers the questions of a Timing preview. Each answer rests on the study of its subject alone and bears its mark. A
// failure is a reply; which failures there are and who says them stands at the end of the way, in `answer.ts`.

import { offersOf } from '../../report/offers';
import type { PreviewData } from '../../report/preview-data';
import { tellAccounts } from '../../report/tell-accounts';
import { bitAt, signalsAt } from '../features/signals-at';
import type { Caret, FileForm, PanelReply, PanelRequest, StudyMark } from '../panel-messages';
import type { Opened } from './open-study';
import { writeFileOf } from './panel-file';

/** Yields after a fixed amount of work. */
export function* answerPanel(opened: Opened, request: PanelRequest): Generator<void, PanelReply> {
  const { mark, refusal } = opened;
  if (refusal !== null) return { kind: 'failed', reason: 'refused', words: refusal };
  switch (request.kind) {
    case 'preview':
      return request.known === mark ? { kind: 'unchanged', mark } : yield* answerPreview(opened, request.known);
    case 'account-at-caret':
      return yield* answerCaret(opened, request.subject.document, request.caret);
    case 'account-of-signal':
      return yield* answerAccount(opened, request.signal, request.at);
    case 'file':
      return yield* answerFile(opened, request.form);
    default:
      // A page of another version than the server's.
      return { kind: 'failed', reason: 'broken', words: 'the question is of an unknown kind' };
  }
}

/** What a panel shows while glitches are still searched for bears a mark of its own. */
export function earlyMark(mark: StudyMark): StudyMark {
  return `${mark} early`;
}

function* answerPreview({ mark: whole, study }: Opened, known: StudyMark | null): Generator<void, PanelReply> {
  const answers = yield* study.soon();
  const mark = answers === study.early ? earlyMark(whole) : whole;
  if (known === mark) return { kind: 'unchanged', mark };
  return { kind: 'preview', mark, data: yield* answers.preview(), offers: yield* offersOf(study) };
}

/** Of a module with several instances the first stands for all; of a vector the bit that is written there, if one is. */
function* answerCaret(opened: Opened, document: string, caret: Caret): Generator<void, PanelReply> {
  const { mark, study } = opened;
  const [signal] = yield* signalsAt(study, document, caret);
  if (signal === undefined) return { kind: 'account', mark, signal: null, accounts: [] };
  const preview = yield* (yield* study.soon()).preview();
  const bit = `${signal}${yield* bitAt(study, document, caret)}`;
  const named = (yield* study.accounts(bit, 0)) === null ? signal : bit;
  return yield* answerAccount(opened, named, lastChange(preview, named));
}

function* answerAccount({ mark, study }: Opened, signal: string, at: number): Generator<void, PanelReply> {
  const accounts = yield* study.accounts(signal, at);
  if (accounts === null) return { kind: 'account', mark, signal: null, accounts: [] };
  return { kind: 'account', mark, signal, accounts: tellAccounts(accounts) };
}

function* answerFile({ mark, study }: Opened, form: FileForm): Generator<void, PanelReply> {
  const written = yield* writeFileOf(study, form);
  const words = 'there is no design to be written: the text has no module that could be chosen';
  return written === null ? { kind: 'failed', reason: 'refused', words } : { kind: 'file', mark, ...written };
}

/** ps; the end of the run for a signal that never changes in it. A vector's trace is named with its range. */
function lastChange({ end, traces }: PreviewData, signal: string): number {
  const trace = traces.find(({ name }) => name === signal || name.replace(/\[[0-9:-]+\]$/, '') === signal);
  return trace?.changes.at.at(-1) ?? end;
}
