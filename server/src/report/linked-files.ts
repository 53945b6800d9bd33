// Which other files a text names: those it includes, and those that its memories start from. Only what is at hand.

import { includeCandidates, shelve } from '../syntax/includes';
import { nextToken, type Token, wordOf } from '../syntax/tokens';
import type { AtHand } from './data-files';

export interface LinkedFile {
  /** Offsets of the name as it is written, without what it stands between. */
  readonly start: number;
  readonly end: number;
  readonly path: string;
}

/** `asking`: the path of the text. In the order of the text. */
export function linkedFiles(text: string, asking: string, hand: AtHand): readonly LinkedFile[] {
  const shelf = shelve(hand.files, hand.provided);
  return [...namedFiles(text)].flatMap(({ end, start }) => {
    const candidates = includeCandidates(asking, text.slice(start, end), hand.includeFolders);
    const found = candidates.map((path) => shelf.find(path)).find((index) => index !== null);
    return found === undefined ? [] : [{ start, end, path: shelf.files[found].path }];
  });
}

function* namedFiles(text: string): Generator<{ readonly start: number; readonly end: number }> {
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    if (word === '`include') yield* includedName(text, token.end);
    else if (word === '$readmemh' || word === '$readmemb') yield* loadedName(text, token);
  }
}

function* includedName(text: string, from: number) {
  const written = /[ \t]*(?:"([^"\r\n]+)"|<([^>\r\n]+)>)/y;
  written.lastIndex = from;
  const found = written.exec(text);
  if (found === null) return;
  const end = written.lastIndex - 1;
  yield { start: end - (found[1] ?? found[2]).length, end };
}

/** The first argument, where it is written out. */
function* loadedName(text: string, task: Token) {
  const open = nextToken(text, task.end);
  const name = nextToken(text, open.end);
  if (wordOf(text, open) === '(' && name.kind === 'string') yield { start: name.start + 1, end: name.end - 1 };
}
