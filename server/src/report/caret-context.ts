// What is being written at a caret, told from the words before it: the connections of an instance, the arguments of a call,
// a member, a macro, or any name. Half-typed text is the rule here, so no table is asked.

import { canonicalName } from '../syntax/names';
import { nextToken, type Token, wordOf } from '../syntax/tokens';

export interface CaretContext {
  readonly kind: CaretKind;
  /** What of the word at the caret stands before it: where it begins, in the text. */
  readonly wordStart: number;
  /** Lists that the caret stands in, outermost first. */
  readonly lists: readonly OpenList[];
}

export type CaretKind =
  /** Nothing is proposed there: a comment, a string, a number. */
  | { readonly kind: 'nothing' }
  | { readonly kind: 'macro' }
  /** Behind the dot of the innermost list. */
  | { readonly kind: 'connection' }
  /** Behind `a.b.`; `path` holds a and b. */
  | { readonly kind: 'member'; readonly path: readonly string[] }
  /** Behind `pack::`. */
  | { readonly kind: 'package'; readonly name: string }
  /** `begins`: an item or a statement may begin there. */
  | { readonly kind: 'name'; readonly begins: boolean };

export interface OpenList {
  /** ports, parameters: of a module that is instantiated; arguments: of a call; other: anything else in parentheses. */
  readonly kind: 'ports' | 'parameters' | 'arguments' | 'other';
  /** The module or what is called; empty for other. */
  readonly name: string;
  /** Behind how many commas the caret stands. */
  readonly index: number;
  /** The connection that the caret stands in, or that was written last. */
  readonly connection: string | null;
  /** Those that are named already, before the caret. */
  readonly connected: readonly string[];
}

export function caretContext(text: string, caret: number): CaretContext {
  const past: Word[] = [];
  let open: Frame[] = [];
  let token = nextToken(text, 0);
  for (; token.kind !== 'end' && token.end < caret; token = nextToken(text, token.end)) {
    const word: Word = { token, text: wordOf(text, token), opened: null };
    past.push(word);
    open = stepped(open, past);
  }
  const isBefore = token.kind !== 'end' && token.end === caret;
  // A mark that ends at the caret is behind it; a word that does is still being written.
  const isWord =
    token.start < caret && (token.kind === 'name' || token.kind === 'keyword' || token.kind === 'directive');
  if (isBefore && !isWord) {
    past.push({ token, text: wordOf(text, token), opened: null });
    open = stepped(open, past);
  }
  const wordStart = isWord ? token.start : caret;
  return { kind: kindAt(text, caret, token, past, open), wordStart, lists: listsOf(open) };
}

interface Word {
  readonly token: Token;
  readonly text: string;
  /** Of a closing mark: the place of the one that opened. */
  opened: number | null;
}

/** A parenthesis, bracket or brace that is open. */
interface Frame {
  readonly mark: string;
  /** Place of the mark among the words. */
  readonly place: number;
  readonly list: Pick<OpenList, 'kind' | 'name'>;
  index: number;
  connection: string | null;
  readonly connected: string[];
}

/** Words that stand in no parentheses: what was left open before them is broken text. */
const closesAll: ReadonlySet<string> = new Set(
  'module macromodule endmodule always always_comb always_ff always_latch assign initial begin end endcase function endfunction task endtask generate endgenerate package endpackage interface endinterface'.split(
    ' ',
  ),
);

function stepped(open: Frame[], past: Word[]): Frame[] {
  const place = past.length - 1;
  const word = past[place];
  const innermost = open.at(-1);
  if (word.token.kind === 'keyword' && closesAll.has(word.text)) return [];
  if (word.token.kind === 'mark' && '([{'.includes(word.text[0]) && word.text.length === 1)
    return [...open, { mark: word.text, place, list: listAt(past, place), index: 0, connection: null, connected: [] }];
  if (word.text === "'{")
    return [...open, { mark: "'{", place, list: other, index: 0, connection: null, connected: [] }];
  if (word.token.kind === 'mark' && word.text.length === 1 && ')]}'.includes(word.text)) {
    word.opened = innermost?.place ?? null;
    return open.slice(0, -1);
  }
  if (innermost === undefined) return open;
  if (word.text === ',') {
    innermost.index += 1;
    innermost.connection = null;
  } else if (word.token.kind === 'name' && isConnection(past, place)) {
    innermost.connection = canonicalName(word.text);
    innermost.connected.push(innermost.connection);
  }
  return open;
}

function isConnection(past: readonly Word[], place: number): boolean {
  const before = past[place - 2]?.text;
  return past[place - 1]?.text === '.' && (before === '(' || before === ',');
}

const other: Frame['list'] = { kind: 'other', name: '' };

/** What the parenthesis at that place belongs to. */
function listAt(past: readonly Word[], place: number): Frame['list'] {
  if (past[place].text !== '(') return other;
  const before = past[place - 1];
  if (before?.text === '#') return ofModule(past, place - 2, 'parameters');
  if (before?.token.kind === 'system') return { kind: 'arguments', name: before.text };
  const name = before?.text === ']' ? (before.opened ?? place) - 1 : place - 1;
  if (past[name]?.token.kind !== 'name') return other;
  const module = past[name - 1]?.text === ')' ? behindParameters(past, name - 1) : name - 1;
  if (past[module]?.token.kind === 'name') return ofModule(past, module, 'ports');
  const isDeclared = past[name - 1]?.token.kind === 'keyword' && declares.has(past[name - 1].text);
  return isDeclared || before?.text === ']' ? other : { kind: 'arguments', name: canonicalName(past[name].text) };
}

/** From the end of `#(…)` to the name before it; -1 where there is none. */
function behindParameters(past: readonly Word[], place: number): number {
  const opened = past[place].opened ?? 0;
  return past[opened - 1]?.text === '#' ? opened - 2 : -1;
}

function ofModule(past: readonly Word[], place: number, kind: 'ports' | 'parameters'): Frame['list'] {
  const word = past[place];
  const isHeader = headers.has(past[place - 1]?.text ?? '');
  return word?.token.kind !== 'name' || isHeader ? other : { kind, name: canonicalName(word.text) };
}

const headers: ReadonlySet<string> = new Set(['module', 'macromodule', 'interface', 'program', 'automatic', 'static']);
const declares: ReadonlySet<string> = new Set([
  ...headers,
  'function',
  'task',
  'modport',
  'signed',
  'unsigned',
  'void',
]);

function kindAt(text: string, caret: number, token: Token, past: readonly Word[], open: readonly Frame[]): CaretKind {
  const last = past.at(-1);
  const isInside = token.start < caret;
  if (isInside && token.kind === 'directive') return { kind: 'macro' };
  if (
    isInside &&
    token.end >= caret &&
    (token.kind === 'number' || token.kind === 'string') &&
    !isClosed(text, token, caret)
  )
    return { kind: 'nothing' };
  if (!isInside && isInComment(text, last?.token.end ?? 0, caret)) return { kind: 'nothing' };
  if (last?.text === '.') return behindDot(past, open);
  if (last?.text === '::') return { kind: 'package', name: canonicalName(past.at(-2)?.text ?? '') };
  return { kind: 'name', begins: open.length === 0 && beginsBehind(last) };
}

function isClosed(text: string, token: Token, caret: number): boolean {
  return token.kind === 'string' && token.end === caret && token.end - token.start > 1 && text[token.end - 1] === '"';
}

function behindDot(past: readonly Word[], open: readonly Frame[]): CaretKind {
  const before = past.at(-2)?.text;
  const list = open.at(-1)?.list.kind;
  if ((before === '(' || before === ',') && (list === 'ports' || list === 'parameters')) return { kind: 'connection' };
  const path: string[] = [];
  let place = past.length - 2;
  while (place >= 0) {
    if (past[place].text === ']') place = (past[place].opened ?? 0) - 1;
    if (past[place]?.token.kind !== 'name') break;
    path.unshift(canonicalName(past[place].text));
    if (past[place - 1]?.text !== '.') break;
    place -= 2;
  }
  return path.length === 0 ? { kind: 'nothing' } : { kind: 'member', path };
}

function beginsBehind(last: Word | undefined): boolean {
  if (last === undefined) return true;
  if (last.token.kind === 'keyword')
    return /^(?:end\w*|begin|else|generate|always_comb|always_latch|initial|always)$/.test(last.text);
  return last.text === ';' || last.text === ')' || last.text === ':' || last.text === '@*' || last.text === '*';
}

/** Whether a comment that begins behind the last word holds the caret. */
function isInComment(text: string, from: number, caret: number): boolean {
  for (let at = from; at < caret; ) {
    const mark = text.slice(at, at + 2);
    if (mark === '//') {
      const end = /[\r\n]|$/.exec(text.slice(at))?.index ?? 0;
      if (at + end >= caret) return true;
      at += end;
    } else if (mark === '/*') {
      const end = text.indexOf('*/', at + 2);
      if (end < 0 || end + 2 > caret) return true;
      at = end + 2;
    } else at += 1;
  }
  return false;
}

function listsOf(open: readonly Frame[]): readonly OpenList[] {
  return open.map(({ connected, connection, index, list }) => ({ ...list, index, connection, connected }));
}
