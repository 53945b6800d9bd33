// Names that unread text may drive, told from its words alone: every plain name left of `=` or `<=` outside
// parentheses. Says too much rather than too little: what is named here counts as unknown, never as undriven.

import type { UnitOffset } from '../text/place';
import { canonicalName } from './names';
import type { At, Named } from './tables';
import { nextToken, type Token, wordOf } from './tokens';
import { gateWords } from './gate-words';

export function namesDrivenIn(text: string, at: At): readonly Named[] {
  const { names, balanced } = assignedNames(text, at, openers);
  // Behind a parenthesis that is never closed everything is inside it.
  return balanced ? names : assignedNames(text, at, new Set(['['])).names;
}

interface AssignedNames {
  readonly names: readonly Named[];
  /** Whether everything opened before a semicolon is closed before it. */
  readonly balanced: boolean;
}

function assignedNames(text: string, at: At, opening: ReadonlySet<string>): AssignedNames {
  const driven = new Map<string, Named>();
  let candidates: Named[] = [];
  let depth = 0;
  let balanced = true;
  for (let token = nextToken(text, at.start); isInside(token, at); token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    const isKeyword = token.kind === 'keyword' && !edges.has(word);
    if (opening.has(word)) depth += 1;
    else if (closers.has(word)) depth = Math.max(0, depth - 1);
    if (isKeyword) balanced &&= depth === 0;
    if (depth > 0) continue;
    if (token.kind === 'name') candidates.push(named(word, token));
    if (assigning.has(word)) for (const name of candidates) if (!driven.has(name.name)) driven.set(name.name, name);
    if (assigning.has(word) || isKeyword || separators.has(word)) candidates = [];
  }
  return { names: [...driven.values()], balanced: balanced && depth === 0 };
}

/** Names that a broken item may declare or drive, by what it begins with. */
export function namesTouchedIn(text: string, at: At): readonly Named[] {
  const first = nextToken(text, at.start);
  const word = wordOf(text, first);
  const second = nextToken(text, first.end);
  const isInstance = first.kind === 'name' && (second.kind === 'name' || ['#', '('].includes(wordOf(text, second)));
  if (isInstance || gateWords.has(word)) return namesUsedIn(text, { ...at, start: first.end as UnitOffset });
  if (word === 'function' || word === 'task') return namesDeclaredIn(text, at).slice(0, 1);
  if (word === 'specify') return [];
  const driven = namesDrivenIn(text, at);
  return processes.has(word) || first.kind === 'name'
    ? driven
    : [...new Map([...driven, ...namesDeclaredIn(text, at)].map((name) => [name.name, name])).values()];
}

/** Names outside brackets that a comma, semicolon, range or value follows; inside, where a bracket is never closed. */
function namesDeclaredIn(text: string, at: At): readonly Named[] {
  const declared: Named[] = [];
  const doubtful: Named[] = [];
  let depth = 0;
  for (let token = nextToken(text, at.start); isInside(token, at); token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    if (openers.has(word) || word === '{') depth += 1;
    else if (closers.has(word) || word === '}') depth = Math.max(0, depth - 1);
    const following = nextToken(text, token.end);
    const isLast = following.kind === 'end' || following.end > at.end;
    if (token.kind !== 'name' || !(isLast || declaratorEnds.has(wordOf(text, following)))) continue;
    (depth === 0 ? declared : doubtful).push(named(word, token));
  }
  return declared.length > 0 ? declared : doubtful;
}

/** Every plain name in the stretch that is not a port's: what an instance whose ports are unknown may drive. */
export function namesUsedIn(text: string, at: At): readonly Named[] {
  const used = new Map<string, Named>();
  let before = '';
  for (let token = nextToken(text, at.start); isInside(token, at); token = nextToken(text, token.end)) {
    const name = named(wordOf(text, token), token);
    if (token.kind === 'name' && before !== '.' && !used.has(name.name)) used.set(name.name, name);
    before = wordOf(text, token);
  }
  return [...used.values()];
}

function isInside(token: Token, at: At): boolean {
  return token.kind !== 'end' && token.end <= at.end;
}

function named(word: string, token: Token): Named {
  return { name: canonicalName(word), start: token.start as UnitOffset, end: token.end as UnitOffset };
}

/** Keywords that stand inside parentheses. */
const edges: ReadonlySet<string> = new Set([
  'posedge',
  'negedge',
  'edge',
  'or',
  'iff',
  'inside',
  'integer',
  'int',
  'genvar',
]);
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
const declaratorEnds: ReadonlySet<string> = new Set([',', ';', '=', '[', '(']);
const processes: ReadonlySet<string> = new Set([
  'assign',
  'always',
  'always_comb',
  'always_ff',
  'always_latch',
  'initial',
  'final',
]);
