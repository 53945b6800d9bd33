// Cuts expanded text at its design units. Every character belongs to exactly one slice; text between units
// that says something is a `loose` slice. Looks at words only, so that damage inside a unit stays inside it:
// a module header inside an open module closes the open one.

import { isAddedKeyword } from './keywords';
import type { OtherUnitTable } from './tables';
import { nextToken, type Token, wordOf } from './tokens';
import { isFirstOnLine } from './word-walk';

export interface Slice {
  readonly what: 'module' | OtherUnitTable['what'];
  readonly start: number;
  readonly end: number;
  /** Where the unit's opening keyword stands; the start for loose text. */
  readonly opening: Token;
  /** Whether the unit's own closing keyword was found. */
  readonly closed: boolean;
}

/** Whether a word is reserved where it stands: `begin_keywords may leave it free for names. */
export type IsReserved = (word: string, offset: number) => boolean;

export function sliceUnits(text: string, isReserved: IsReserved = () => true): readonly Slice[] {
  const slices: Slice[] = [];
  let loose = 0;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    const what = unitKinds.get(word);
    // extern module and the like declare without opening.
    if (word === 'extern') token = nextToken(text, token.end);
    if (word === 'extern' || what === undefined || !isReserved(word, token.start) || !isOpening(text, token)) continue;
    const unit = unitFrom(text, token, what, isReserved);
    addLoose(text, slices, loose, unit.start);
    slices.push(unit);
    loose = unit.end;
    token = { ...token, end: unit.end };
  }
  addLoose(text, slices, loose, text.length);
  return slices;
}

function addLoose(text: string, slices: Slice[], start: number, end: number): void {
  if (start >= end) return;
  const opening = nextToken(text, start);
  slices.push({ what: 'loose', start, end, opening, closed: true });
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
  let last = opening;
  for (let token = nextToken(text, opening.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    if (word === closing) return { what, start: opening.start, end: labelEnd(text, token.end), opening, closed: true };
    if (isReserved(word, token.start) && closesOpenUnit(text, token, word, last)) {
      const nested = what === 'module' && closing === closingWords.get(word) ? nestedEnd(text, token) : null;
      if (nested === null) return { what, start: opening.start, end: token.start, opening, closed: false };
      token = { ...token, end: nested };
    }
    last = token;
  }
  return { what, start: opening.start, end: text.length, opening, closed: false };
}

/**
 * Only words that can open nothing inside a unit. Those that only SystemVerilog reserves may be names (`reg program;`),
 * so they open one only where a line or a declaration begins.
 */
function closesOpenUnit(text: string, token: Token, word: string, before: Token): boolean {
  if (!neverInside.has(word) || wordOf(text, before) === 'extern' || !isOpening(text, token)) return false;
  return !isAddedKeyword(word) || wordOf(text, before) === ';' || isFirstOnLine(text, token.start);
}

/**
 * Behind a module that stands whole inside another one: one more `endmodule` follows it before anything opens (IEEE
 * 1800-2017 23.4). Null where the text reads better as one module that lacks its end, and another behind it.
 */
export function nestedEnd(text: string, opening: Token): number | null {
  let depth = 1;
  let end: number | null = null;
  for (let token = nextToken(text, opening.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    if (word === 'endmodule') {
      if (end !== null) return end;
      depth -= 1;
      if (depth === 0) end = labelEnd(text, token.end);
    } else if (unitKinds.has(word) && neverInside.has(word) && isOpening(text, token)) {
      if (end !== null || closingWords.get(word) !== 'endmodule' || depth >= deepestNested) return null;
      depth += 1;
    }
  }
  return null;
}

/** Modules that stand inside each other. More are rather modules without an end, and looking for it at each takes long. */
const deepestNested = 16;

/** endmodule : label */
function labelEnd(text: string, end: number): number {
  const colon = nextToken(text, end);
  if (wordOf(text, colon) !== ':') return end;
  const label = nextToken(text, colon.end);
  return label.kind === 'name' ? label.end : end;
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
