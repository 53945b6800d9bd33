// Text that the standard allows, or that everybody understands, and that the grammar refuses: edits that make
// it readable without changing what it means. Each rule looks at words alone.

import type { UnitOffset } from '../text/place';
import type { Edit } from './edits';
import { isAddedKeyword } from './keywords';
import type { StandIn } from './reader';
import type { Token } from './tokens';

/** The words of one construct. */
export interface Words {
  readonly tokens: readonly Token[];
  readonly words: readonly string[];
}

export interface Rescue {
  readonly edits: readonly Edit[];
  /** Places left empty on purpose, by offset. */
  readonly standIns: readonly StandIn[];
}

/** `failing` is the offset of the token at which reading failed. Nothing where no rule applies. */
export function rescueEdits(words: Words, failing: number): Rescue {
  const open = openFirstConnections(words);
  const edits = [
    ...renamedWord(words, failing),
    ...nestedUnary(words),
    ...pullStrengths(words),
    ...open.map(placeholder),
  ];
  return { edits, standIns: open.map(emptyPlace) };
}

/** The failing word, or the one before it, wherever it stands in the construct. */
function renamedWord(words: Words, failing: number): readonly Edit[] {
  const index = words.tokens.findIndex((token) => token.start >= failing);
  const places = index < 0 ? [words.tokens.length - 1] : [index, index - 1];
  const word = places.map((place) => words.words[place]).find((each) => each !== undefined && isAddedKeyword(each));
  const same = words.tokens.filter((_token, place) => words.words[place] === word);
  return renamedWords({ tokens: same, words: same.map(() => word ?? '') }, isAddedKeyword);
}

/**
 * A name that only SystemVerilog reserves (`do`, `bit`, `priority`) is an ordinary name of Verilog
 * (IEEE 1364-2005 annex B); the tables take their names from the text as it was.
 */
export function renamedWords({ tokens, words }: Words, isName: (word: string) => boolean): readonly Edit[] {
  return tokens.flatMap((token, index) => {
    if (token.kind !== 'keyword' || !isName(words[index])) return [];
    return [{ start: token.start, end: token.end, text: `${words[index]}_name`, owner: token.start }];
  });
}

/** (, b): a first connection left open (IEEE 1364-2005 12.3.5). Gives the offsets behind the parentheses. */
function openFirstConnections({ tokens, words }: Words): readonly number[] {
  return tokens.flatMap((token, index) => (words[index] === '(' && words[index + 1] === ',' ? [token.end] : []));
}

function placeholder(offset: number): Edit {
  return insertion(offset, 'open');
}

function emptyPlace(offset: number): StandIn {
  return { at: { start: offset as UnitOffset, end: offset as UnitOffset }, names: [] };
}

/** !!a, ~~a, -~a: the standard asks for parentheses (IEEE 1364-2005 A.8.3); nobody reads it in two ways. */
function nestedUnary(own: Words): readonly Edit[] {
  const { tokens, words } = own;
  const edits: Edit[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    if (!unary.has(words[index]) || isOperandEnd(own, index - 1)) continue;
    let last = index;
    while (unary.has(words[last + 1])) last += 1;
    for (let sign = index + 1; sign <= last; sign += 1) edits.push(insertion(tokens[sign].start, '('));
    if (last > index) edits.push(insertion(primaryEnd(own, last + 1), ')'.repeat(last - index)));
    index = last;
  }
  return edits;
}

function insertion(offset: number, text: string): Edit {
  return { start: offset, end: offset, text, owner: offset };
}

function isOperandEnd({ tokens, words }: Words, index: number): boolean {
  const kind = tokens[index]?.kind;
  return kind === 'name' || kind === 'number' || kind === 'string' || (index >= 0 && closing.has(words[index]));
}

/** Behind a primary: a name or number or bracketed thing, and the selects behind it. */
function primaryEnd({ tokens, words }: Words, from: number): number {
  let index = from;
  if (!opening.has(words[index])) index += 1;
  for (;;) {
    if (opening.has(words[index])) index = behindBrackets(words, index);
    else if (words[index] === '.' || words[index] === '::') index += 2;
    else if (words[index]?.startsWith("'")) index += 1;
    else break;
  }
  return tokens[Math.min(index, tokens.length) - 1].end;
}

function behindBrackets(words: readonly string[], from: number): number {
  let depth = 0;
  for (let index = from; index < words.length; index += 1) {
    if (opening.has(words[index])) depth += 1;
    else if (closing.has(words[index])) depth -= 1;
    if (depth === 0) return index + 1;
  }
  return words.length;
}

/** pullup (strong1) p (a): the grammar takes the strength for terminals. A pull is weaker than any driver all the same. */
function pullStrengths({ tokens, words }: Words): readonly Edit[] {
  if (words[0] !== 'pullup' && words[0] !== 'pulldown') return [];
  const close = words.indexOf(')');
  if (!/^(supply|strong|pull|weak|highz)[01]$/.test(words[2] ?? '') || close < 0) return [];
  return [{ start: tokens[1].start, end: tokens[close].end, text: ' ', owner: tokens[1].start }];
}

const unary: ReadonlySet<string> = new Set(['+', '-', '!', '~', '&', '~&', '|', '~|', '^', '~^', '^~']);
const opening: ReadonlySet<string> = new Set(['(', '[', '{']);
const closing: ReadonlySet<string> = new Set([')', ']', '}']);
