// One token too few or too many, where only one token can be meant: what to put back or leave out, and what
// to say. Whether it makes the construct whole is for the caller to find out.

import type { UnitOffset } from '../text/place';
import { openParentheses } from './damage';
import type { Edit } from './edits';
import type { Failing } from './probe';
import { type Remark, remark } from './remark';
import { type Construct, firstFrom, isFirstOnLine, type UnitWords } from './word-walk';

export interface PutBack {
  readonly edit: Edit;
  readonly remark: Remark;
  /** The construct would be whole up to here; what follows is another. */
  readonly until: number;
}

export interface Damaged {
  readonly text: string;
  readonly structure: UnitWords;
}

export function putBacks(damaged: Damaged, construct: Construct, failing: Failing): readonly PutBack[] {
  const index = firstFrom(damaged.structure, failing.start);
  if (index === 0 || damaged.structure.tokens[index - 1].end <= construct.start) return [];
  const found = [
    withoutComma(damaged, construct, index),
    withComma(damaged, construct, failing, index),
    withParentheses(damaged, construct, failing, index),
    withSemicolon(damaged, construct, failing, index),
  ];
  return found.filter((each): each is PutBack => each !== null);
}

/** A comma before what closes a list. */
function withoutComma({ structure }: Damaged, construct: Construct, index: number): PutBack | null {
  const token = structure.tokens[index];
  if (token === undefined || token.end > construct.end || structure.words[index - 1] !== ',') return null;
  if (structure.words[index] !== ')' && structure.words[index] !== ';') return null;
  const { start, end } = structure.tokens[index - 1];
  const edit = { start, end, text: ' ', owner: construct.start };
  return { edit, remark: remark('unexpected', { text: structure.words[index] }, at(token)), until: construct.end };
}

/** A list that goes on with a new line: ports, connections. */
function withComma(
  { text, structure }: Damaged,
  construct: Construct,
  failing: Failing,
  index: number,
): PutBack | null {
  if (failing.start >= construct.end || !isFirstOnLine(text, failing.start)) return null;
  const stop = structure.tokens[index - 1].end;
  if (openParentheses(structure, construct.start, stop).length === 0) return null;
  return {
    edit: { start: stop, end: stop, text: ',', owner: construct.start },
    remark: missingAt(stop, ','),
    until: construct.end,
  };
}

/** A header whose list of ports is not closed: the ports so far are known. */
function withParentheses(damaged: Damaged, construct: Construct, failing: Failing, index: number): PutBack | null {
  const { structure, text } = damaged;
  const stop = structure.tokens[index - 1].end;
  const open = openParentheses(structure, construct.start, stop).length;
  const goesOn = failing.start < construct.end && structure.words[index] !== ';';
  if (construct.kind !== 'header' || open === 0 || (goesOn && !isFirstOnLine(text, failing.start))) return null;
  if (goesOn && entryWords.has(structure.words[index])) return null;
  const ends = structure.words[index] === ';' && failing.start < construct.end;
  const edit = { start: stop, end: stop, text: ')'.repeat(open) + (ends ? '' : ';'), owner: construct.start };
  return { edit, remark: missingAt(stop, ')'), until: goesOn ? stop : construct.end };
}

/** What begins another entry of the list. */
const entryWords: ReadonlySet<string> = new Set(['input', 'output', 'inout', 'parameter', 'localparam']);

/** Where the text runs out, or goes on with a new line that does not fit. What only waits for a statement takes none. */
function withSemicolon(
  { text, structure }: Damaged,
  construct: Construct,
  failing: Failing,
  index: number,
): PutBack | null {
  if (construct.inner.some((inner) => inner.end > failing.start)) return null;
  if (failing.start < construct.end && !isFirstOnLine(text, failing.start)) return null;
  if (heads.has(structure.words[firstFrom(structure, construct.start)])) return null;
  const stop = structure.tokens[index - 1].end;
  return {
    edit: { start: stop, end: stop, text: ';', owner: construct.start },
    remark: missingAt(stop, ';'),
    until: stop,
  };
}

const heads: ReadonlySet<string> = new Set([
  'always',
  'always_comb',
  'always_ff',
  'always_latch',
  'initial',
  'final',
  'if',
  'for',
  'while',
  'repeat',
  'forever',
  'wait',
  '@',
  '#',
  'case',
  'casez',
  'casex',
]);

function missingAt(offset: number, what: string): Remark {
  return remark('missing', { what }, at({ start: offset, end: offset }));
}

function at({ start, end }: Failing) {
  return { start: start as UnitOffset, end: end as UnitOffset };
}
