// What stands above the picture when there is something to do before it can be believed: nothing to draw, text that
// cannot be read, a limit, a choice that cannot be followed. Each says what to do, and offers it where it can be offered.

import type { PanelSubject } from '../../server/src/editor/panel-messages';
import type { PreviewData } from '../../server/src/report/preview-data';
import type { Span } from '../../server/src/text/place';
import type { Talk } from './conversation';

export interface Notice {
  readonly words: string;
  readonly action: NoticeAction | null;
}

export type NoticeAction =
  | { readonly kind: 'ask-again' }
  | { readonly kind: 'drop-choices' }
  | { readonly kind: 'reveal'; readonly span: Span };

export function noticesOf(talk: Talk): readonly Notice[] {
  const { failure, shown } = talk;
  if (shown === null) return [failure === null ? waiting : failureNotice(talk, failure)];
  return [
    ...(failure === null ? [] : [failureNotice(talk, failure), older]),
    ...emptyNotices(talk),
    ...unreadNotices(shown.data),
    ...cutNotices(shown.data.cut),
  ];
}

/** Words for what an action does. */
export function actionWords(action: NoticeAction): string {
  switch (action.kind) {
    case 'ask-again':
      return 'Try again';
    case 'drop-choices':
      return 'Drop what was chosen here';
    case 'reveal':
      return `Show line ${action.span.line}`;
  }
}

const waiting: Notice = {
  words: 'The text is being read; its timing is drawn here as soon as it is known.',
  action: null,
};
const older: Notice = { words: 'What is drawn below is of an earlier text or choice.', action: null };

function failureNotice({ subject }: Talk, { reason, words }: NonNullable<Talk['failure']>): Notice {
  switch (reason) {
    case 'refused':
      // Without a choice it is the project file that has to be mended: the panel hears of that.
      return {
        words: sentence('This cannot be followed', words),
        action: hasChoices(subject) ? { kind: 'drop-choices' } : null,
      };
    case 'broken':
      return {
        words: sentence('A mistake of Foretick itself, not of the design', words),
        action: { kind: 'ask-again' },
      };
    default:
      return { words: sentence('There is no answer at the moment', words), action: { kind: 'ask-again' } };
  }
}

function hasChoices(subject: PanelSubject | null): boolean {
  if (subject === null) return false;
  const { clocks, delays, inputs, resets, start, top } = subject.choices;
  const isNamed = [delays, start, top].some((choice) => choice !== null);
  return isNamed || [clocks, inputs, resets].some((record) => Object.keys(record).length > 0);
}

function emptyNotices({ shown }: Talk): readonly Notice[] {
  if (shown === null) return [];
  const { data, offers } = shown;
  if (data.top === null) {
    const words = 'There is no module here whose timing could be drawn: write one, or mend what is said below.';
    return [{ words, action: null }];
  }
  if (data.traces.length > 0) return [];
  const other = offers.tops.length > 1 ? ', or choose another module above' : '';
  return [{ words: `${data.top} has nothing that could move: give it ports and registers${other}.`, action: null }];
}

/** One of each kind: the list of findings holds the others. */
function unreadNotices({ findings, traces }: PreviewData): readonly Notice[] {
  return unread.flatMap(({ id, more }) => {
    const found = findings.filter((finding) => finding.id === id);
    if (found.length === 0) return [];
    const [{ message, span }] = found;
    const rest = found.length === 1 ? '' : ` (and ${found.length - 1} more)`;
    const consequence = traces.length === 0 ? '' : ` ${more}`;
    return [{ words: `${message}${rest}.${consequence}`, action: { kind: 'reveal', span } }];
  });
}

const unread = [
  { id: 'syntax', more: 'What cannot be read is left out of the picture; the rest is drawn.' },
  { id: 'limit-reached', more: 'What lies beyond the limit is left out of the picture.' },
] as const;

function cutNotices(cut: string | null): readonly Notice[] {
  if (cut === null) return [];
  const words = `${cut}. What would come after it is not drawn; a smaller module as the top may run further.`;
  return [{ words, action: null }];
}

function sentence(lead: string, words: string): string {
  return words === '' ? `${lead}.` : `${lead}: ${words}.`;
}
