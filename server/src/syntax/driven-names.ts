// Names that unread text may drive, told from its words alone: every plain name left of `=` or `<=` outside
// parentheses. Says too much rather than too little: what is named here counts as unknown, never as undriven.

import type { UnitOffset } from '../text/place';
import { canonicalName } from './names';
import type { At, Named } from './tables';
import { nextToken, type Token, wordOf } from './tokens';

export function namesDrivenIn(text: string, at: At): readonly Named[] {
  const driven = new Map<string, Named>();
  let candidates: Named[] = [];
  let depth = 0;
  for (let token = nextToken(text, at.start); isInside(token, at); token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    if (openers.has(word)) depth += 1;
    else if (closers.has(word)) depth = Math.max(0, depth - 1);
    if (depth > 0) continue;
    if (token.kind === 'name') candidates.push(named(word, token));
    if (assigning.has(word)) for (const name of candidates) if (!driven.has(name.name)) driven.set(name.name, name);
    if (assigning.has(word) || token.kind === 'keyword' || separators.has(word)) candidates = [];
  }
  return [...driven.values()];
}

/** Every plain name in the stretch: what an instance whose ports are unknown may drive. */
export function namesUsedIn(text: string, at: At): readonly Named[] {
  const used = new Map<string, Named>();
  for (let token = nextToken(text, at.start); isInside(token, at); token = nextToken(text, token.end)) {
    if (token.kind !== 'name') continue;
    const name = named(wordOf(text, token), token);
    if (!used.has(name.name)) used.set(name.name, name);
  }
  return [...used.values()];
}

function isInside(token: Token, at: At): boolean {
  return token.kind !== 'end' && token.end <= at.end;
}

function named(word: string, token: Token): Named {
  return { name: canonicalName(word), start: token.start as UnitOffset, end: token.end as UnitOffset };
}

const openers: ReadonlySet<string> = new Set(['(', '[']);
const closers: ReadonlySet<string> = new Set([')', ']']);
const separators: ReadonlySet<string> = new Set([';', ')', ':']);
const assigning: ReadonlySet<string> = new Set([
  '=',
  '<=',
  '+=',
  '-=',
  '*=',
  '/=',
  '%=',
  '&=',
  '|=',
  '^=',
  '<<=',
  '>>=',
  '<<<=',
  '>>>=',
  '++',
  '--',
]);
