// Where a module's header and items begin and end, told from their words.

import { readProcessWords, readStray, readSubroutineWords } from './statement-words';
import { closers, closing, itemStarts, opening } from './structure-words';
import {
  close,
  type Construct,
  constructFrom,
  current,
  isAtEnd,
  isFirstOnLine,
  openWalk,
  skipLabel,
  skipLine,
  skipParentheses,
  skipTooDeep,
  type UnitWords,
  type WordWalk,
} from './word-walk';

export interface Structure extends Pick<WordWalk, 'edits' | 'remarks' | 'tooDeep' | 'nestingLimit'>, UnitWords {
  readonly header: Construct;
  readonly items: readonly Construct[];
}

/** `text` begins with the module's keyword. */
export function structureOf(text: string, nestingLimit: number): Structure {
  const structure = bestStructureOf(text, nestingLimit);
  return { ...structure, remarks: structure.remarks.slice(0, mostUnclosed) };
}

/** Who has forgotten so many closing words looks at the first of them, and then again. */
const mostUnclosed = 20;

function bestStructureOf(text: string, nestingLimit: number): Structure {
  const plain = walkModule(openWalk(text, { nestingLimit, byColumn: false }));
  const { aligned, askew } = plain.closings;
  // Where closing words stand tells most of what is missing, if the text is written so that it tells anything.
  if (plain.loose === 0 || aligned < askew) return plain;
  const byColumn = walkModule(openWalk(text, { nestingLimit, byColumn: true }));
  return byColumn.loose <= plain.loose ? byColumn : plain;
}

interface WalkedModule extends Structure, Pick<WordWalk, 'closings'> {
  /** Opening and closing words that have no partner. */
  readonly loose: number;
}

function walkModule(walk: WordWalk): WalkedModule {
  const header = readHeader(walk);
  const items: Construct[] = [];
  let strays = 0;
  while (!isAtEnd(walk) && current(walk) !== 'endmodule') {
    if (closers.has(current(walk))) {
      items.push({ ...readStray(walk), kind: 'item' });
      strays += 1;
    } else items.push(...readItem(walk, { wraps: true }));
  }
  return { ...walk, header, items, loose: walk.remarks.length + strays };
}

/** Up to the first semicolon that ends no import, or to a word that only an item has. */
function readHeader(walk: WordWalk): Construct {
  const first = walk.index;
  let isImport = false;
  let depth = 0;
  let listed = false;
  for (walk.index += 1; !isAtEnd(walk); walk.index += 1) {
    const word = current(walk);
    if (opening.has(word)) depth += 1;
    else if (closing.has(word)) depth -= 1;
    listed ||= depth > 0;
    const isEnd = itemStarts.has(word) || closers.has(word) || word === 'assign' || (!listed && directions.has(word));
    if (depth > 0 && (isEnd || word === ';') && goesOn(walk)) continue;
    if (isEnd) break;
    if (word === 'import') isImport = true;
    if (word !== ';') continue;
    if (isImport) isImport = false;
    else {
      walk.index += 1;
      break;
    }
  }
  return constructFrom(walk, first, 'header');
}

/** Whether a list is open here: what follows, up to a semicolon, closes more than it opens. */
function goesOn({ index, words }: WordWalk): boolean {
  let depth = 0;
  for (let next = index + 1; next < words.length; next += 1) {
    const word = words[next];
    if (opening.has(word)) depth += 1;
    else if (closing.has(word)) depth -= 1;
    if (depth < 0) return true;
    if (word === ';' || itemStarts.has(word) || closers.has(word)) return false;
  }
  return false;
}

interface ItemPlace {
  /** A bare begin … end stands where the grammar knows none, and is put behind a condition. */
  readonly wraps: boolean;
}

/** One item, or those between generate and endgenerate. */
function readItem(walk: WordWalk, place: ItemPlace): readonly Construct[] {
  const first = walk.index;
  if (current(walk) === 'generate') return readRegion(walk);
  if (walk.depth >= walk.nestingLimit) {
    skipTooDeep(walk);
    return [constructFrom(walk, first, 'item')];
  }
  walk.depth += 1;
  const inner = readInner(walk, place);
  walk.depth -= 1;
  return [constructFrom(walk, first, 'item', inner)];
}

function readRegion(walk: WordWalk): readonly Construct[] {
  const opening = walk.index;
  walk.index += 1;
  const items = readItems(walk);
  close(walk, opening, ['endgenerate']);
  return items;
}

function readItems(walk: WordWalk): readonly Construct[] {
  const items: Construct[] = [];
  while (!isAtEnd(walk) && !closers.has(current(walk))) items.push(...readItem(walk, { wraps: true }));
  return items;
}

type Inner = readonly (Construct | null)[];

function readInner(walk: WordWalk, place: ItemPlace): Inner {
  const word = current(walk);
  const end = regions.get(word);
  if (processes.has(word)) return [readProcessWords(walk)];
  if (word === 'function' || word === 'task') return readSubroutineWords(walk);
  if (end !== undefined) return skipRegion(walk, end);
  switch (word) {
    case 'begin':
      if (place.wraps && isInLine(walk)) {
        skipLine(walk);
        return [];
      }
      if (place.wraps) putBefore(walk, 'if(1)');
      return readBlock(walk);
    case 'if':
      return readIf(walk);
    case 'for':
      walk.index += 1;
      skipParentheses(walk, { semicolons: true });
      return readBlock(walk);
    case 'case':
      return readCase(walk);
    default:
      skipLine(walk);
      return [];
  }
}

/** In the middle of a damaged line a word opens nothing. */
function isInLine({ index, text, tokens, words }: WordWalk): boolean {
  const before = tokens[index - 1];
  const isOpen = before?.kind === 'mark' && words[index - 1] !== ';' && words[index - 1] !== ':';
  return isOpen && !isFirstOnLine(text, tokens[index].start);
}

function putBefore(walk: WordWalk, text: string): void {
  const { start } = walk.tokens[walk.index];
  walk.edits.push({ start, end: start, text, owner: start });
}

/** begin … end with its label on either side, or one item alone. */
function readBlock(walk: WordWalk): Inner {
  if (walk.words[walk.index + 1] === ':' && walk.words[walk.index + 2] === 'begin') walk.index += 2;
  if (isAtEnd(walk) || closers.has(current(walk))) return [];
  if (current(walk) !== 'begin') return readItem(walk, { wraps: false });
  const opening = walk.index;
  walk.index += 1;
  skipLabel(walk);
  const items = readItems(walk);
  close(walk, opening, ['end']);
  return items;
}

function readIf(walk: WordWalk): Inner {
  const inner: (Construct | null)[] = [];
  for (;;) {
    walk.index += 1;
    skipParentheses(walk, { semicolons: false });
    inner.push(...readBlock(walk));
    if (current(walk) !== 'else') return inner;
    walk.index += 1;
    if (current(walk) !== 'if') return [...inner, ...readBlock(walk)];
  }
}

function readCase(walk: WordWalk): Inner {
  const opening = walk.index;
  walk.index += 1;
  skipParentheses(walk, { semicolons: false });
  const inner: (Construct | null)[] = [];
  while (!isAtEnd(walk) && !closers.has(current(walk))) {
    while (!isAtEnd(walk) && !labelEnds.has(current(walk))) walk.index += 1;
    if (current(walk) === ':') walk.index += 1;
    inner.push(...readBlock(walk));
  }
  close(walk, opening, ['endcase']);
  return inner;
}

/** A specify block and the like: read by the grammar as one, or lost as one. */
function skipRegion(walk: WordWalk, end: string): Inner {
  const opening = walk.index;
  for (walk.index += 1; !isAtEnd(walk) && current(walk) !== end && !outerEnds.has(current(walk)); ) walk.index += 1;
  close(walk, opening, [end]);
  return [];
}

const directions: ReadonlySet<string> = new Set(['input', 'output', 'inout']);
const processes: ReadonlySet<string> = new Set([
  'always',
  'always_comb',
  'always_ff',
  'always_latch',
  'initial',
  'final',
]);
const regions: ReadonlyMap<string, string> = new Map([
  ['specify', 'endspecify'],
  ['covergroup', 'endgroup'],
  ['property', 'endproperty'],
  ['sequence', 'endsequence'],
  ['clocking', 'endclocking'],
  ['class', 'endclass'],
  ['interface', 'endinterface'],
  ['checker', 'endchecker'],
]);
const outerEnds: ReadonlySet<string> = new Set(['endmodule', 'endgenerate', 'always', 'initial', 'assign']);
const labelEnds: ReadonlySet<string> = new Set([':', ';', 'begin', ...closers, ...itemStarts]);
