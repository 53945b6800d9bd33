// Port lists that the standard allows and the grammar refuses: `.external(internal)`, concatenations, bits and parts,
// and places left empty in a header without directions (IEEE 1364-2005 12.3.2). Edits make plain names of them; what
// was written is kept beside. What cannot be read keeps its place in the list.

import type { UnitOffset } from '../text/place';
import type { Edit } from './edits';
import { canonicalName } from './names';
import { portExpressionOf } from './port-expression';
import type { StandIn } from './reader';
import type { Named } from './tables';
import { nextToken, type Token, wordOf } from './tokens';

interface HeaderPorts {
  readonly edits: readonly Edit[];
  /** External names, by where the port's expression begins. */
  readonly externals: ReadonlyMap<number, Named>;
  /** Ports without an expression, and those whose expression is not read: they name what it holds. */
  readonly standIns: readonly StandIn[];
}

/** `text` begins with the module's keyword. Nothing for a header with directions, or without ports. */
export function plainHeaderPorts(text: string): HeaderPorts {
  const list = portListOf(text);
  const found: Found = { edits: [], externals: new Map(), standIns: [] };
  if (list.length <= 2 || list.some((token) => directions.has(wordOf(text, token)))) return found;
  for (let index = 1; index < list.length; index += 1) {
    const before = wordOf(text, list[index - 1]);
    const word = wordOf(text, list[index]);
    if (word === '{') index = addWhole(found, text, list, index, '}');
    else if (list[index].kind === 'name' && wordOf(text, list[index + 1] ?? list[index]) === '[')
      index = addWhole(found, text, list, index, ']');
    else if ((before === '(' || before === ',') && (word === ',' || word === ')')) addEmpty(found, list[index - 1].end);
    else if (word === '.' && list[index + 1]?.kind === 'name') index = addNamed(found, text, list, index);
  }
  return found;
}

interface Found {
  readonly edits: Edit[];
  readonly externals: Map<number, Named>;
  readonly standIns: StandIn[];
}

/** From the opening parenthesis to the closing one; empty where the header has no list or does not close it. */
function portListOf(text: string): readonly Token[] {
  let token = nextToken(text, nextToken(text, 0).end);
  token = nextToken(text, token.end);
  if (wordOf(text, token) === '#')
    token = nextToken(text, parenthesized(text, nextToken(text, token.end)).at(-1)?.end ?? token.end);
  return parenthesized(text, token);
}

function parenthesized(text: string, open: Token): readonly Token[] {
  const tokens: Token[] = [];
  let depth = 0;
  for (let token = open; token.kind !== 'end' && wordOf(text, token) !== ';'; token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    tokens.push(token);
    if (word === '(') depth += 1;
    else if (word === ')') depth -= 1;
    if (depth <= 0) return word === ')' ? tokens : [];
  }
  return [];
}

/** .name(expression) becomes the expression, .name() a placeholder. Returns the index of its last token. */
function addNamed(found: Found, text: string, list: readonly Token[], dot: number): number {
  const close = list.findIndex((token, index) => index > dot + 1 && wordOf(text, token) === ')');
  if (wordOf(text, list[dot + 2]) !== '(' || close < 0) return dot + 1;
  const inside = list.slice(dot + 3, close);
  const own = portExpressionOf(text, inside)?.kind ?? 'name';
  // A bound that is an expression is left to the grammar.
  const isPlain = inside.length > 0 && wordOf(text, inside[0]) !== '{' && own === 'name';
  const { start } = list[dot];
  const { end } = list[close];
  found.externals.set(isPlain ? list[dot + 3].start : start, named(text, list[dot + 1]));
  if (isPlain) {
    found.edits.push({ start, end: list[dot + 2].end, text: ' ', owner: start });
    found.edits.push({ start: list[close].start, end, text: ' ', owner: list[close].start });
  } else {
    hide(found, text, { start, end }, inside);
  }
  return close;
}

/** {a, b[1:0]} or a[1:0] by itself. Returns the index of its last token. */
function addWhole(found: Found, text: string, list: readonly Token[], open: number, closing: string): number {
  const close = list.findIndex((token, index) => index > open && wordOf(text, token) === closing);
  const words = list.slice(open, close + 1);
  const isLeft = closing === ']' && portExpressionOf(text, words) === null;
  if (close < 0 || isLeft) return open;
  hide(found, text, { start: list[open].start, end: list[close].end }, words);
  return close;
}

/** Puts a name in the place of a port that the grammar does not take: nothing, or what its words say. */
function hide(
  found: Found,
  text: string,
  { start, end }: { readonly start: number; readonly end: number },
  words: readonly Token[],
): void {
  found.edits.push({ start, end, text: 'open', owner: start });
  const at = { start: start as UnitOffset, end: end as UnitOffset };
  const expression = portExpressionOf(text, words);
  found.standIns.push({ at, names: namesAmong(text, words), ...(expression === null ? {} : { expression }) });
}

function namesAmong(text: string, tokens: readonly Token[]): readonly Named[] {
  return tokens.filter((token) => token.kind === 'name').map((token) => named(text, token));
}

function named(text: string, token: Token): Named {
  const name = canonicalName(wordOf(text, token));
  return { name, start: token.start as UnitOffset, end: token.end as UnitOffset };
}

function addEmpty(found: Found, offset: number): void {
  hide(found, '', { start: offset, end: offset }, []);
}

const directions: ReadonlySet<string> = new Set(['input', 'output', 'inout', 'ref', 'interface']);
