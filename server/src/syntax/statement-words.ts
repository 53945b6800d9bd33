// Where statements begin and end, told from their words.

import type { UnitOffset } from '../text/place';
import { remark } from './remark';
import { closers, itemStarts } from './structure-words';
import {
  close,
  type Construct,
  constructFrom,
  current,
  isAtEnd,
  isFirstOnLine,
  isInstance,
  isStray,
  lineStart,
  skipLabel,
  skipLine,
  skipParentheses,
  skipTooDeep,
  type WordWalk,
} from './word-walk';

/** The statement of an always, initial or final. */
export function readProcessWords(walk: WordWalk): Construct | null {
  walk.processColumn = columnOf(walk.text, walk.tokens[walk.index].start);
  walk.index += 1;
  return readStatementWords(walk);
}

/** Statements between the line that opens a function or task and the word that closes it; declarations are its own. */
export function readSubroutineWords(walk: WordWalk): readonly Construct[] {
  const opening = walk.index;
  const end = current(walk) === 'function' ? 'endfunction' : 'endtask';
  walk.processColumn = columnOf(walk.text, walk.tokens[opening].start);
  skipLine(walk);
  const inner: Construct[] = [];
  while (!isAtEnd(walk) && !subroutineEnds.has(current(walk))) {
    const first = walk.index;
    const next = ownDeclarations.has(current(walk)) ? null : readStatementWords(walk);
    if (next === null) skipLine(walk);
    inner.push(next ?? constructFrom(walk, first, 'declaration'));
  }
  close(walk, opening, [end]);
  return inner;
}

/** Null where no statement stands: before a closing word or an item. */
function readStatementWords(walk: WordWalk): Construct | null {
  if (!canStart(walk)) return null;
  const first = walk.index;
  if (walk.depth >= walk.nestingLimit) {
    skipTooDeep(walk);
    return constructFrom(walk, first, 'statement');
  }
  walk.depth += 1;
  const inner = readInner(walk);
  walk.depth -= 1;
  return constructFrom(walk, first, 'statement', inner);
}

function canStart(walk: WordWalk): boolean {
  const word = current(walk);
  if (isAtEnd(walk) || closers.has(word) || word === 'else') return false;
  return !isItem(walk) && !((itemStarts.has(word) || neverStatements.has(word)) && beginsItem(walk));
}

/** A word that opens items and stands in the middle of a line, or further in than the process, is part of a damaged statement. */
function beginsItem(walk: WordWalk): boolean {
  const { start } = walk.tokens[walk.index];
  if (!isFirstOnLine(walk.text, start)) return walk.words[walk.index - 1] === ';';
  return itemStarts.has(current(walk)) || columnOf(walk.text, start) <= walk.processColumn;
}

/**
 * An instance, or an `assign` no deeper than the process around it: the process ends before it. A procedural
 * `assign` is rare and stands further in.
 */
function isItem(walk: WordWalk): boolean {
  if (current(walk) === 'assign') return columnOf(walk.text, walk.tokens[walk.index].start) <= walk.processColumn;
  return isInstance(walk);
}

function columnOf(text: string, offset: number): number {
  return offset - lineStart(text, offset);
}

type Inner = readonly (Construct | null)[];

function readInner(walk: WordWalk): Inner {
  const word = current(walk);
  if (qualifiers.has(word)) walk.index += 1;
  const read = innerReaders.get(current(walk));
  if (read !== undefined) return read(walk);
  if (walk.tokens[walk.index]?.kind === 'name' && walk.words[walk.index + 1] === ':') {
    walk.index += 2;
    return [readStatementWords(walk)];
  }
  skipLine(walk);
  return [];
}

function readBlock(walk: WordWalk): Inner {
  const opening = walk.index;
  const ends = current(walk) === 'fork' ? ['join', 'join_any', 'join_none'] : ['end'];
  walk.index += 1;
  skipLabel(walk);
  const inner: Construct[] = [];
  for (let next = readInBlock(walk, opening); next !== null; next = readInBlock(walk, opening)) inner.push(next);
  close(walk, opening, ends);
  return inner;
}

/** A statement, a closing word that closes nothing, or an `else` without its `if` and what follows that. */
function readInBlock(walk: WordWalk, opening: number): Construct | null {
  if (isStray(walk, opening)) return readStray(walk);
  if (walk.byColumn && current(walk) === 'else' && walk.words[opening - 1] !== ')') return readLoneElse(walk);
  return readStatementWords(walk);
}

export function readStray(walk: WordWalk): Construct {
  const first = walk.index;
  walk.index += 1;
  return constructFrom(walk, first, 'stray');
}

function readLoneElse(walk: WordWalk): Construct {
  const first = walk.index;
  walk.index += 1;
  readStatementWords(walk);
  return constructFrom(walk, first, 'statement');
}

/** if … else if … else: one construct, however long, and its last link one in it. */
function readIf(walk: WordWalk): Inner {
  const opening = walk.index;
  const inner: (Construct | null)[] = [];
  let link = { first: opening, held: 0 };
  for (;;) {
    walk.index += 1;
    skipParentheses(walk, { semicolons: false });
    inner.push(readStatementWords(walk));
    if (walk.words[walk.index + 1] === 'else' && isStray(walk, opening)) inner.push(readStray(walk));
    if (current(walk) !== 'else') break;
    walk.index += 1;
    if (current(walk) !== 'if') {
      inner.push(readAwaited(walk, opening));
      break;
    }
    link = { first: walk.index, held: inner.length };
  }
  if (link.first === opening) return inner;
  return [...inner.slice(0, link.held), constructFrom(walk, link.first, 'one', inner.slice(link.held))];
}

function readCase(walk: WordWalk): Inner {
  const opening = walk.index;
  walk.index += 1;
  skipParentheses(walk, { semicolons: false });
  const inner: (Construct | null)[] = [];
  for (;;) {
    const word = current(walk);
    if (isStray(walk, opening) || word === ';') inner.push(readStray(walk));
    else if (walk.byColumn && word === 'else') inner.push(joined(inner, readLoneElse(walk)));
    else if (!canStart(walk)) break;
    else if (word === 'begin') inner.push(joined(inner, readStatementWords(walk)));
    else inner.push(readArm(walk, inner));
  }
  close(walk, opening, ['endcase']);
  return inner;
}

/** A label and its statement. What has no colon belongs to the damage of the arm before, if it can assign anything. */
function readArm(walk: WordWalk, before: (Construct | null)[]): Construct | null {
  const first = walk.index;
  if (skipCaseLabel(walk)) return readAwaited(walk, first);
  if (current(walk) === 'begin') readStatementWords(walk);
  const assigns = walk.words.slice(first, walk.index).some((word) => word === '=' || word === '<=' || word === 'begin');
  if (!assigns) return constructFrom(walk, first, 'stray');
  return before.length === 0 ? null : joined(before, constructFrom(walk, first, 'statement'));
}

/** The statement behind a label or an `else`; where none stands, that is said and an empty one is put in. */
function readAwaited(walk: WordWalk, first: number): Construct | null {
  // No statement begins with a number: the next label does.
  if (canStart(walk) && walk.tokens[walk.index]?.kind !== 'number') return readStatementWords(walk);
  const { end } = walk.tokens[walk.index - 1];
  walk.remarks.push(remark('missing', { what: 'a statement' }, { start: end as UnitOffset, end: end as UnitOffset }));
  walk.edits.push({ start: end, end, text: ' begin end ', owner: walk.tokens[first].start });
  return null;
}

/** No arm begins so: it belongs to the damage of the arm before; where there is none, to that of the case. */
function joined(arms: (Construct | null)[], next: Construct | null): Construct | null {
  let last = arms.length - 1;
  while (last >= 0 && (arms[last] ?? null)?.kind === 'stray') last -= 1;
  const before = arms[last] ?? null;
  if (before === null || next === null) return next;
  arms.splice(last);
  return { ...next, kind: 'one', start: before.start };
}

/** 1, 2: or default. False where a label lacks its colon: then the whole line is passed. */
function skipCaseLabel(walk: WordWalk): boolean {
  if (current(walk) === 'default') {
    walk.index += 1;
    if (current(walk) === ':') walk.index += 1;
    return true;
  }
  let questions = 0;
  for (let depth = 0; canStart(walk) && current(walk) !== ';' && current(walk) !== 'begin'; walk.index += 1) {
    const word = current(walk);
    if (opening.has(word)) depth += 1;
    else if (closing.has(word)) depth -= 1;
    else if (word === '?') questions += 1;
    else if (word === ':' && depth === 0) {
      if (questions === 0) break;
      questions -= 1;
    }
  }
  const hasColon = current(walk) === ':';
  if (hasColon || current(walk) === ';') walk.index += 1;
  return hasColon;
}

function readLoop(walk: WordWalk): Inner {
  walk.index += 1;
  skipParentheses(walk, { semicolons: true });
  return [readStatementWords(walk)];
}

function readDo(walk: WordWalk): Inner {
  walk.index += 1;
  const body = readStatementWords(walk);
  if (current(walk) === 'while') skipLine(walk);
  return [body];
}

/** @name, @(…), @*, #value, #(…), then a statement. */
function readTimed(walk: WordWalk): Inner {
  walk.index += 1;
  if (current(walk) === '(') skipParentheses(walk, { semicolons: false });
  else if (canStart(walk) && current(walk) !== ';' && current(walk) !== 'begin') walk.index += 1;
  while (current(walk) === '.' || current(walk) === '::') walk.index += 2;
  return [readStatementWords(walk)];
}

/** Words that stand in no function or task: one that reaches them is not closed. */
const subroutineEnds: ReadonlySet<string> = new Set([
  'endfunction',
  'endtask',
  'endmodule',
  'endgenerate',
  'function',
  'task',
  'generate',
  'always',
  'always_comb',
  'always_ff',
  'always_latch',
  'initial',
  'assign',
]);
const ownDeclarations: ReadonlySet<string> = new Set([
  'input',
  'output',
  'inout',
  'ref',
  'reg',
  'logic',
  'bit',
  'byte',
  'int',
  'integer',
  'shortint',
  'longint',
  'real',
  'time',
  'realtime',
  'static',
  'automatic',
  'var',
  'localparam',
  'parameter',
  'typedef',
  'event',
]);
/** Words that begin items and no statement. */
const neverStatements: ReadonlySet<string> = new Set([
  'wire',
  'tri',
  'wand',
  'wor',
  'triand',
  'trior',
  'tri0',
  'tri1',
  'supply0',
  'supply1',
  'trireg',
  'uwire',
  'input',
  'output',
  'inout',
  'genvar',
  'defparam',
  'and',
  'nand',
  'or',
  'nor',
  'xor',
  'xnor',
  'buf',
  'not',
  'final',
]);
const qualifiers: ReadonlySet<string> = new Set(['unique', 'unique0', 'priority']);
const opening: ReadonlySet<string> = new Set(['(', '[', '{']);
const closing: ReadonlySet<string> = new Set([')', ']', '}']);

const innerReaders: ReadonlyMap<string, (walk: WordWalk) => Inner> = new Map<string, (walk: WordWalk) => Inner>([
  ['begin', readBlock],
  ['fork', readBlock],
  ['if', readIf],
  ['case', readCase],
  ['casez', readCase],
  ['casex', readCase],
  ['for', readLoop],
  ['while', readLoop],
  ['repeat', readLoop],
  ['foreach', readLoop],
  ['wait', readLoop],
  ['forever', readLoop],
  ['do', readDo],
  ['@', readTimed],
  ['#', readTimed],
]);
