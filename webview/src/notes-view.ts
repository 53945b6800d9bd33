// What stands beside every picture, folded away until it is wanted: findings with their places, the review, what was assumed
// and why, the keys, and what this tool does not see.

import type { PreviewData } from '../../server/src/report/preview-data';
import type { ReportAssumption, ReportFinding } from '../../server/src/report/report';
import type { Span } from '../../server/src/text/place';
import { make, makeLink } from './page-elements';

export interface NotesView {
  readonly element: HTMLElement;
  show(data: PreviewData): void;
}

/** Also what the picture is described by. */
export const keysId = 'keys';

const keys: readonly (readonly [string, string])[] = [
  ['left, right', 'the edge before, the edge after'],
  ['up, down', 'the trace above, the trace below'],
  ['Enter, Backspace', 'to the cause, and back'],
  ['Space', 'fold or unfold a vector'],
  ['+, −', 'zoom about the edge in focus'],
  ['Page Up, Page Down', 'earlier, later'],
  ['Home', 'the whole run'],
  ['wheel with Ctrl, with Shift', 'zoom about the pointer, along the run'],
];

export function makeNotes(reveal: (span: Span) => void): NotesView {
  const findings = makeNote('');
  const review = makeNote('');
  const assumed = makeNote('');
  const unseen = makeNote('Not seen');
  const help = makeNote('Keys');
  const words = keys.map(([key, what]) => make('li', {}, [make('kbd', { text: key }), ` ${what}`]));
  help.list.replaceChildren(...words);
  help.list.id = keysId;
  return {
    element: make(
      'footer',
      { className: 'notes' },
      [findings, review, assumed, unseen, help].map(({ element }) => element),
    ),
    show(data) {
      fill(findings, headOf(data.findings.length, 'finding'), findingItems(data.findings, reveal));
      fill(review, 'Review', reviewNotes(data.review, reveal));
      fill(
        assumed,
        `${data.assumptions.length} assumed`,
        data.assumptions.map((each) => assumedItem(each, reveal)),
      );
      fill(
        unseen,
        'Not seen',
        data.cautions.map((text) => make('li', { text })),
      );
    },
  };
}

/** Findings that stand here; the editor lists them all. */
const listed = 100;

interface Note {
  readonly element: HTMLElement;
  readonly summary: HTMLElement;
  readonly list: HTMLElement;
}

function makeNote(text: string): Note {
  const summary = make('summary', { text });
  const list = make('ul', { className: 'note' });
  return { element: make('details', {}, [summary, list]), summary, list };
}

/** Nothing to say: nothing to open. */
function fill({ element, list, summary }: Note, head: string, items: readonly HTMLElement[]): void {
  summary.textContent = head;
  list.replaceChildren(...items);
  element.hidden = items.length === 0;
}

function headOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

function findingItems(findings: readonly ReportFinding[], reveal: (span: Span) => void): readonly HTMLElement[] {
  const more = findings.length - listed;
  const rest = more > 0 ? [make('li', { text: `and ${more} more, among the problems of the editor` })] : [];
  return [...findings.slice(0, listed).map((each) => findingItem(each, reveal)), ...rest];
}

function findingItem(finding: ReportFinding, reveal: (span: Span) => void): HTMLElement {
  const { accepted, certainty, id, message, severity, span } = finding;
  const weight = [severity, certainty, accepted === null ? null : 'accepted']
    .filter((word) => word !== null)
    .join(', ');
  const head = make('span', { className: 'weight', text: `${id} (${weight})` });
  return make('li', {}, [head, ' ', make('span', { text: message }), ' ', lineLink(span, reveal)]);
}

/** Each with its place, so that whoever signs has looked at it. */
function reviewNotes(review: PreviewData['review'], reveal: (span: Span) => void): readonly HTMLElement[] {
  const more = review.length - mostReviewed;
  const rest = more > 0 ? [make('li', { text: `and ${more} more, in the report` })] : [];
  const items = review.slice(0, mostReviewed).map(({ about, span, text }) => {
    const words: readonly (Node | string)[] = [
      make('bdi', { className: 'weight', text: about }),
      ' ',
      make('span', { text }),
    ];
    return make('li', {}, span === null ? words : [...words, ' ', lineLink(span, reveal)]);
  });
  return [...items, ...rest];
}

const mostReviewed = 400;

function assumedItem({ about, reason, span }: ReportAssumption, reveal: (span: Span) => void): HTMLElement {
  const words: readonly (Node | string)[] = [
    make('bdi', { className: 'weight', text: about }),
    ' ',
    make('span', { text: reason }),
  ];
  return make('li', {}, span === null ? words : [...words, ' ', lineLink(span, reveal)]);
}

function lineLink(span: Span, reveal: (span: Span) => void): HTMLElement {
  return makeLink(`line ${span.line}`, () => reveal(span));
}
