// What a selection grows to from a place, step by step: the word, what stands between brackets, the statement, the block, the
// unit. From the words of the text, so that half-typed text grows as far as it goes.

import { closingWords } from './closing-words';
import { nextToken, type Token, wordOf } from '../syntax/tokens';

/** Offsets in the text. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Innermost first, each inside the next; the last is the whole text. */
export function selectionStretches(text: string, offset: number): readonly Stretch[] {
  const holding = [...stretches(text)].filter(({ end, start }) => start <= offset && offset <= end && start < end);
  const bySize = holding.sort((left, right) => left.end - left.start - (right.end - right.start));
  const nested: Stretch[] = [];
  for (const each of [...bySize, { start: 0, end: text.length }]) {
    const inner = nested.at(-1);
    const grows = inner === undefined || each.end - each.start > inner.end - inner.start;
    if (grows && (inner === undefined || (each.start <= inner.start && inner.end <= each.end))) nested.push(each);
  }
  return nested;
}

/** An opening word or bracket that nothing has closed yet. */
interface Opened {
  readonly token: Token;
  readonly closings: readonly string[];
  /** Where the statement that it stands in begins. */
  readonly statement: number;
  readonly isBracket: boolean;
}

function* stretches(text: string): Generator<Stretch> {
  const open: Opened[] = [];
  let statement: number | null = null;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    const closed = open.map(({ closings }) => closings.includes(word)).lastIndexOf(true);
    if (closed >= 0) {
      const opening = open[closed];
      open.length = closed;
      yield* closedStretches(opening, token);
      statement = opening.isBracket ? opening.statement : null;
      continue;
    }
    if (token.kind !== 'mark') yield { start: token.start, end: token.end };
    statement ??= token.start;
    const isBracket = brackets.has(word);
    const closings = token.kind === 'keyword' || isBracket ? pairs.get(word) : undefined;
    if (closings !== undefined) {
      open.push({ token, closings, statement, isBracket });
      if (!isBracket) statement = null;
    } else if (word === ';' && open.at(-1)?.isBracket !== true) {
      yield { start: statement, end: token.end };
      statement = null;
    }
  }
}

/** The inside, the whole, and of a block the whole with what leads to it. */
function* closedStretches({ isBracket, statement, token }: Opened, closing: Token): Generator<Stretch> {
  yield { start: token.end, end: closing.start };
  yield { start: token.start, end: closing.end };
  if (!isBracket) yield { start: statement, end: closing.end };
}

const pairs: ReadonlyMap<string, readonly string[]> = new Map([
  ['(', [')']],
  ['[', [']']],
  ['{', ['}']],
  ["'{", ['}']],
  ...closingWords,
]);
const brackets: ReadonlySet<string> = new Set(['(', '[', '{', "'{"]);
