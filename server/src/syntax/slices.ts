// Cuts expanded text at its design units. Every character belongs to exactly one slice; text between units
// that says something is a `loose` slice. Looks at words only, so that damage inside a unit stays inside it:
// a module header inside an open module closes the open one.

import { isAddedKeyword } from './keywords';
import type { OtherUnitTable } from './tables';
import { attributeStop, nextToken, type Token, wordOf } from './tokens';
import { isFirstOnLine } from './word-walk';

export interface Slice {
  readonly what: 'module' | OtherUnitTable['what'];
  readonly start: number;
  readonly end: number;
  /** Where the unit's opening keyword stands; the start for loose text. */
  readonly opening: Token;
  /** Whether the unit's own closing keyword was found. */
  readonly closed: boolean;
  /** Behind the last character that it hangs on; what stands there and further on may change without changing it. */
  readonly reach: number;
}

/** Whether a word is reserved where it stands: `begin_keywords may leave it free for names. */
export type IsReserved = (word: string, offset: number) => boolean;

export function sliceUnits(text: string, isReserved: IsReserved = () => true): readonly Slice[] {
  return [...slicesFrom(text, 0, isReserved)];
}

/** `from`: 0, or where a unit ends. */
export function* slicesFrom(text: string, from: number, isReserved: IsReserved): Generator<Slice, void> {
  let loose = from;
  for (let token = nextToken(text, from); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    const what = unitKinds.get(word);
    // extern module and the like declare without opening.
    if (word === 'extern') token = nextToken(text, token.end);
    if (word === 'extern' || what === undefined || !isReserved(word, token.start) || !isOpening(text, token)) continue;
    const unit = unitFrom(text, token, what, isReserved);
    const reach = Math.max(unit.reach, attributeReach(text, loose, unit.reach));
    if (loose < unit.start) yield looseSlice(text, loose, unit.start, reach);
    yield { ...unit, reach };
    loose = unit.end;
    token = { ...token, end: unit.end };
  }
  if (loose < text.length) yield looseSlice(text, loose, text.length, text.length + 1);
}

function looseSlice(text: string, start: number, end: number, reach: number): Slice {
  return { what: 'loose', start, end, opening: nextToken(text, start), closed: true, reach };
}

/** Whether something is an attribute may be told far behind the word before it. */
function attributeReach(text: string, start: number, end: number): number {
  let reach = 0;
  for (let mark = text.indexOf('(*', start); mark >= 0 && mark + 2 <= end; mark = text.indexOf('(*', mark + 2))
    reach = Math.max(reach, attributeStop(text, mark) + 2);
  return reach;
}

/** A name follows the keyword; `virtual interface v;` and `interface` in a port list are followed by other things. */
function isOpening(text: string, token: Token): boolean {
  const next = nextToken(text, token.end);
  const word = wordOf(text, next);
  return next.kind === 'name' || next.kind === 'end' || word === 'automatic' || word === 'static' || word === ';';
}

/** From the opening keyword to behind the closing one and its label, or to where another unit opens. */
function unitFrom(text: string, opening: Token, what: Slice['what'], isReserved: IsReserved): Slice {
  const closing = closingWords.get(wordOf(text, opening)) ?? '';
  const { start } = opening;
  let last = opening;
  let seen = opening.end;
  for (let token = nextToken(text, opening.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    if (word === closing) {
      const label = labelBehind(text, token.end);
      return { what, start, end: label.end, opening, closed: true, reach: Math.max(seen, label.seen) + 1 };
    }
    if (isReserved(word, token.start) && closesOpenUnit(text, token, word, last)) {
      const nested = nestedIn(text, token, what, closing, word);
      seen = Math.max(seen, nested.seen);
      if (nested.end === null)
        return { what, start, end: token.start, opening, closed: false, reach: Math.max(seen, token.end) + 1 };
      token = { ...token, end: nested.end };
    }
    last = token;
  }
  return { what, start, end: text.length, opening, closed: false, reach: text.length + 1 };
}

/**
 * Only words that can open nothing inside a unit. Those that only SystemVerilog reserves may be names (`reg program;`),
 * so they open one only where a line or a declaration begins.
 */
function closesOpenUnit(text: string, token: Token, word: string, before: Token): boolean {
  if (!neverInside.has(word) || wordOf(text, before) === 'extern' || !isOpening(text, token)) return false;
  return !isAddedKeyword(word) || wordOf(text, before) === ';' || isFirstOnLine(text, token.start);
}

/** A module that stands whole inside the open unit; a unit that another kind of it would close holds none. */
function nestedIn(text: string, token: Token, what: Slice['what'], closing: string, word: string): Looked {
  const opensSame = what === 'module' && closing === closingWords.get(word);
  // Whether a name follows the keyword has been looked at, whatever comes of it.
  return opensSame ? lookForNested(text, token) : { end: null, seen: nextToken(text, token.end).end };
}

/**
 * Behind a module that stands whole inside another one: one more `endmodule` follows it before anything opens (IEEE
 * 1800-2017 23.4). Null where the text reads better as one module that lacks its end, and another behind it.
 */
export function nestedEnd(text: string, opening: Token): number | null {
  return lookForNested(text, opening).end;
}

interface Looked {
  readonly end: number | null;
  /** Behind the last word looked at. */
  readonly seen: number;
}

function lookForNested(text: string, opening: Token): Looked {
  let depth = 1;
  let end: number | null = null;
  for (let token = nextToken(text, opening.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    if (word === 'endmodule') {
      if (end !== null) return { end, seen: token.end };
      depth -= 1;
      if (depth === 0) end = labelBehind(text, token.end).end;
    } else if (unitKinds.has(word) && neverInside.has(word) && isOpening(text, token)) {
      const seen = nextToken(text, token.end).end;
      if (end !== null || closingWords.get(word) !== 'endmodule' || depth >= deepestNested) return { end: null, seen };
      depth += 1;
    }
  }
  return { end: null, seen: text.length };
}

/** Modules that stand inside each other. More are rather modules without an end, and looking for it at each takes long. */
const deepestNested = 16;

/** endmodule : label */
function labelBehind(text: string, end: number): { readonly end: number; readonly seen: number } {
  const colon = nextToken(text, end);
  if (wordOf(text, colon) !== ':') return { end, seen: colon.end };
  const label = nextToken(text, colon.end);
  return { end: label.kind === 'name' ? label.end : end, seen: label.end };
}

const unitKinds: ReadonlyMap<string, Slice['what']> = new Map([
  ['module', 'module'],
  ['macromodule', 'module'],
  ['interface', 'interface'],
  ['package', 'package'],
  ['program', 'program'],
  ['class', 'class'],
  ['primitive', 'primitive'],
]);
const closingWords: ReadonlyMap<string, string> = new Map([
  ['module', 'endmodule'],
  ['macromodule', 'endmodule'],
  ['interface', 'endinterface'],
  ['package', 'endpackage'],
  ['program', 'endprogram'],
  ['class', 'endclass'],
  ['primitive', 'endprimitive'],
]);
const neverInside: ReadonlySet<string> = new Set(['module', 'macromodule', 'package', 'primitive', 'program']);
