// What the panel knows and asks, as a machine without a page: a message or a choice goes in; what is known then, what is
// to be said, and what the caret wishes to see come out. An answer counts only if it is to the newest question of its
// kind. What is shown stays until something newer is there.

import type {
  ClientMessage,
  FailureReason,
  Offers,
  PageMessage,
  PanelAccount,
  PanelReply,
  PanelRequest,
  PanelSubject,
  StudyChoices,
  StudyMark,
} from '../../server/src/editor/panel-messages';
import type { PreviewData } from '../../server/src/report/preview-data';

export interface Talk {
  /** What the person wants to see; null until the client says. */
  readonly subject: PanelSubject | null;
  readonly shown: Shown | null;
  readonly failure: { readonly reason: FailureReason; readonly words: string } | null;
  /** Numbers of the newest questions that are not answered yet. */
  readonly asked: { readonly preview: number | null; readonly caret: number | null };
  /** Whether something newer than what is shown is on its way, or will be. */
  readonly isStale: boolean;
  readonly lastNumber: number;
}

export interface Shown {
  readonly subject: PanelSubject;
  readonly mark: StudyMark;
  readonly data: PreviewData;
  readonly offers: Offers;
}

export type TalkEvent =
  | { readonly kind: 'heard'; readonly message: ClientMessage }
  | { readonly kind: 'chosen'; readonly choices: StudyChoices }
  | { readonly kind: 'drop-choices' }
  | { readonly kind: 'ask-again' };

/** What the caret stands on. */
export interface CaretWish {
  readonly signal: string;
  readonly accounts: readonly PanelAccount[];
}

export interface Turn {
  readonly talk: Talk;
  readonly say: readonly PageMessage[];
  readonly wish: CaretWish | null;
}

export const silence: Talk = {
  subject: null,
  shown: null,
  failure: null,
  asked: { preview: null, caret: null },
  isStale: true,
  lastNumber: 0,
};

const noChoices: StudyChoices = {
  top: null,
  delays: null,
  start: null,
  clocks: {},
  resets: {},
  inputs: {},
  whatIf: [],
};

export function takeTurn(talk: Talk, event: TalkEvent): Turn {
  switch (event.kind) {
    case 'heard':
      return hear(talk, event.message);
    case 'chosen':
      return talk.subject === null ? quiet(talk) : choose(talk, { ...talk.subject, choices: event.choices });
    case 'drop-choices':
      return talk.subject === null ? quiet(talk) : choose(talk, { ...talk.subject, choices: noChoices });
    case 'ask-again':
      return askPreview(talk);
  }
}

function hear(talk: Talk, message: ClientMessage): Turn {
  switch (message.kind) {
    case 'show':
      return askPreview({ ...talk, subject: message.subject });
    case 'changed':
      return askPreview(talk);
    case 'caret':
      return talk.subject === null
        ? quiet(talk)
        : ask(talk, 'caret', { kind: 'account-at-caret', subject: talk.subject, caret: message.caret });
    case 'answer':
      return hearAnswer(talk, message);
    // The page itself sees to it: it alone has the picture.
    case 'export':
      return quiet(talk);
  }
}

function choose(talk: Talk, subject: PanelSubject): Turn {
  const turn = askPreview({ ...talk, subject });
  return { ...turn, say: [{ kind: 'chose', subject }, ...turn.say] };
}

function askPreview(talk: Talk): Turn {
  const { shown, subject } = talk;
  if (subject === null) return quiet(talk);
  const known = shown !== null && isSame(shown.subject, subject) ? shown.mark : null;
  return ask({ ...talk, isStale: true }, 'preview', { kind: 'preview', subject, known });
}

function ask(talk: Talk, kind: 'preview' | 'caret', request: PanelRequest): Turn {
  const number = talk.lastNumber + 1;
  const asked = { ...talk.asked, [kind]: number };
  return { talk: { ...talk, asked, lastNumber: number }, say: [{ kind: 'ask', number, request }], wish: null };
}

function hearAnswer(talk: Talk, { number, reply }: ClientMessage & { kind: 'answer' }): Turn {
  const { asked } = talk;
  if (number === asked.preview) return hearPreview({ ...talk, asked: { ...asked, preview: null } }, reply);
  if (number !== asked.caret || reply.kind !== 'account') return quiet(talk);
  const wish = reply.signal === null ? null : { signal: reply.signal, accounts: reply.accounts };
  return { talk: { ...talk, asked: { ...asked, caret: null } }, say: [], wish };
}

function hearPreview(talk: Talk, reply: PanelReply): Turn {
  const { shown, subject } = talk;
  switch (reply.kind) {
    case 'preview': {
      if (subject === null) return quiet(talk);
      const { data, mark, offers } = reply;
      return quiet({ ...talk, shown: { subject, mark, data, offers }, failure: null, isStale: false });
    }
    case 'unchanged': {
      const same = shown === null ? null : { ...shown, mark: reply.mark };
      return quiet({ ...talk, shown: same, failure: null, isStale: false });
    }
    case 'failed': {
      const { reason, words } = reply;
      // Newer text has come in between: the client says `changed` when it is studied.
      return quiet(reason === 'superseded' ? talk : { ...talk, failure: { reason, words } });
    }
    case 'account':
    case 'file':
      return quiet(talk);
  }
}

function quiet(talk: Talk): Turn {
  return { talk, say: [], wish: null };
}

/** Both come as JSON, and each side keeps the order of the names that it was handed. */
function isSame(left: PanelSubject, right: PanelSubject): boolean {
  return JSON.stringify(left) === JSON.stringify(right);
}
