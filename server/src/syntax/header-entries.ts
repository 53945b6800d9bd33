// The parameters and ports of a damaged header, one by one: where each is written, told from its words. A word that only
// begins an entry begins one whatever is still open before it, so that damage to one entry ends with it.

import type { Construct, UnitWords } from './word-walk';
import { wordsIn } from './word-walk';

export interface HeaderEntry {
  readonly kind: 'parameter' | 'port';
  readonly start: number;
  readonly end: number;
  /** It takes its direction and type from the entry before it. */
  readonly follows: boolean;
  /** It says its direction. */
  readonly leads: boolean;
}

export interface HeaderParts {
  /** Behind the module's name and the imports that follow it. */
  readonly head: number;
  readonly entries: readonly HeaderEntry[];
}

/** Null where the header has no name. */
export function headerParts(text: string, structure: UnitWords, header: Construct): HeaderParts | null {
  const inside = wordsIn(structure, header.start, header.end);
  const name = inside.findIndex((index) => structure.tokens[index].kind === 'name');
  if (name < 0) return null;
  const first = behindImports(structure, inside, name + 1);
  const walk: EntryWalk = { text, structure, entries: [], list: 'none', depth: 0, last: 'none', open: [] };
  for (const index of inside.slice(first)) step(walk, index);
  closeEntry(walk);
  return { head: structure.tokens[inside[first - 1]].end, entries: walk.entries };
}

function behindImports({ words }: UnitWords, inside: readonly number[], from: number): number {
  let next = from;
  while (words[inside[next]] === 'import') {
    const end = inside.findIndex((index, place) => place > next && words[index] === ';');
    if (end < 0) return next;
    next = end + 1;
  }
  return next;
}

interface EntryWalk {
  readonly text: string;
  readonly structure: UnitWords;
  readonly entries: HeaderEntry[];
  list: 'none' | HeaderEntry['kind'];
  /** Of brackets of all kinds; 1 where entries stand. */
  depth: number;
  last: 'none' | 'hash' | HeaderEntry['kind'];
  /** Indices of the words of the entry so far. */
  open: number[];
}

function step(walk: EntryWalk, index: number): void {
  const word = walk.structure.words[index];
  const begins = beginners.get(word);
  if (begins !== undefined && (begins === 'parameter' || walk.structure.words[index - 1] !== '.')) {
    // What opens the next list ends no entry of this one.
    if (walk.structure.words[walk.open[walk.open.length - 1]] === '(') walk.open.pop();
    if (!isDeclared(walk, begins)) closeEntry(walk);
    walk.list = begins;
    walk.depth = 1;
  }
  if (opening.has(word)) walk.depth += 1;
  if (closing.has(word)) walk.depth -= 1;
  if (walk.list === 'none') openList(walk, word);
  else if (walk.depth <= 0) closeList(walk);
  else if (word === ',' && walk.depth === 1) closeEntry(walk);
  else walk.open.push(index);
}

/** `parameter` and the like stand once before an entry, first of all its words. */
function isDeclared(walk: EntryWalk, begins: HeaderEntry['kind']): boolean {
  return walk.open.length === 0 && walk.list === begins;
}

/** #( … ) holds parameters, ( … ) ports. */
function openList(walk: EntryWalk, word: string): void {
  if (word === '#') walk.last = 'hash';
  if (word === '(') {
    walk.list = walk.last === 'hash' ? 'parameter' : 'port';
    walk.last = walk.list;
    walk.depth = 1;
  } else walk.depth = 0;
}

function closeList(walk: EntryWalk): void {
  closeEntry(walk);
  walk.list = 'none';
  walk.depth = 0;
}

function closeEntry(walk: EntryWalk): void {
  const { entries, list, open, structure } = walk;
  walk.open = [];
  // What ends the header is no part of its last entry.
  if (structure.words[open[open.length - 1]] === ';') open.pop();
  if (open.length === 0 || list === 'none') return;
  const { start } = structure.tokens[open[0]];
  const { end } = structure.tokens[open[open.length - 1]];
  entries.push({ kind: list, start, end, follows: isFollower(structure, open), leads: isLeader(structure, open) });
}

/** A name and its dimensions alone; two names in a row are a type and a name. */
function isFollower({ tokens, words }: UnitWords, [first, second]: readonly number[]): boolean {
  if (tokens[first].kind !== 'name') return false;
  return second === undefined || words[second] === '[' || words[second] === '=';
}

function isLeader({ words }: UnitWords, [first]: readonly number[]): boolean {
  return beginners.get(words[first]) === 'port';
}

const beginners: ReadonlyMap<string, HeaderEntry['kind']> = new Map([
  ['input', 'port'],
  ['output', 'port'],
  ['inout', 'port'],
  ['parameter', 'parameter'],
  ['localparam', 'parameter'],
]);
const opening: ReadonlySet<string> = new Set(['(', '[', '{', "'{"]);
const closing: ReadonlySet<string> = new Set([')', ']', '}']);
