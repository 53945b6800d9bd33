// A user-defined primitive as it is written (IEEE 1364-2005 8.1): its name, ports, start value and rows, told from its
// words. Null for text of any other form: the primitive is then known by name only.

import type { UnitOffset } from '../text/place';
import { canonicalName } from './names';
import type { At, Named } from './tables';
import { nextToken, skipBlank, type Token, wordOf } from './tokens';

export interface PrimitiveText {
  readonly name: Named;
  readonly output: Named;
  readonly inputs: readonly Named[];
  /** Whether the output keeps a state: `reg`. */
  readonly isSequential: boolean;
  /** Digit of the start value, where one is written. */
  readonly start: { readonly digit: '0' | '1' | 'x'; readonly at: At } | null;
  readonly rows: readonly PrimitiveRow[];
}

export interface PrimitiveRow {
  readonly at: At;
  /** One per input: a level (0 1 x ? b) or an edge (r f p n *, or two levels in parentheses without them: 01). */
  readonly inputs: readonly string[];
  /** The level of the state before; null in a combinational primitive. */
  readonly state: string | null;
  /** 0, 1, x, or - for no change. */
  readonly next: string;
}

/** `text` begins with the word `primitive`. */
export function readPrimitiveText(text: string): PrimitiveText | null {
  const walk: Walk = { text, token: nextToken(text, 0) };
  step(walk);
  const name = takeName(walk);
  const header = name === null ? null : readHeader(walk);
  if (name === null || header === null || header.names.length < 2) return null;
  if (!readDeclarations(walk, header) || header.isOutput.size !== 1) return null;
  const start = header.start ?? readInitial(walk);
  const rows = wordOf(text, walk.token) === 'table' ? readRows(text, walk.token.end) : null;
  const output = header.names.find((port) => header.isOutput.has(port.name));
  const inputs = header.names.filter((port) => port !== output);
  if (rows === null || rows.length === 0 || start === 'bad' || output !== header.names[0]) return null;
  const isSequential = rows.every(({ state }) => state !== null);
  if (rows.some((row) => row.inputs.length !== inputs.length || (row.state !== null) !== isSequential)) return null;
  return { name, output, inputs, isSequential, start, rows };
}

interface Walk {
  readonly text: string;
  token: Token;
}

interface Header {
  readonly names: Named[];
  readonly isOutput: Set<string>;
  start: PrimitiveText['start'] | 'bad';
}

function step(walk: Walk): void {
  walk.token = nextToken(walk.text, walk.token.end);
}

function word(walk: Walk): string {
  return wordOf(walk.text, walk.token);
}

function take(walk: Walk, wanted: string): boolean {
  if (word(walk) !== wanted) return false;
  step(walk);
  return true;
}

function takeName(walk: Walk): Named | null {
  const { kind, start, end } = walk.token;
  if (kind !== 'name') return null;
  const name = canonicalName(word(walk));
  step(walk);
  return { name, start: start as UnitOffset, end: end as UnitOffset };
}

/** Names alone, or each with its direction. */
function readHeader(walk: Walk): Header | null {
  const header: Header = { names: [], isOutput: new Set(), start: null };
  if (!take(walk, '(')) return null;
  let direction = '';
  do {
    if (word(walk) === 'input' || word(walk) === 'output') {
      direction = word(walk);
      step(walk);
    }
    take(walk, 'reg');
    const name = takeName(walk);
    if (name === null) return null;
    header.names.push(name);
    if (direction === 'output') header.isOutput.add(name.name);
    if (take(walk, '=')) header.start = takeStart(walk);
  } while (take(walk, ','));
  return take(walk, ')') && take(walk, ';') ? header : null;
}

/** input a, b; output q; reg q; — up to what is none of them. */
function readDeclarations(walk: Walk, header: Header): boolean {
  while (['input', 'output', 'reg'].includes(word(walk))) {
    const isOutput = take(walk, 'output');
    if (!isOutput) step(walk);
    take(walk, 'reg');
    do {
      const name = takeName(walk);
      if (name === null) return false;
      if (isOutput) header.isOutput.add(name.name);
      if (take(walk, '=')) header.start = takeStart(walk);
    } while (take(walk, ','));
    if (!take(walk, ';')) return false;
  }
  return true;
}

/** initial q = 1'b0; */
function readInitial(walk: Walk): Header['start'] {
  if (!take(walk, 'initial')) return null;
  if (takeName(walk) === null || !take(walk, '=')) return 'bad';
  const start = takeStart(walk);
  return take(walk, ';') ? start : 'bad';
}

function takeStart(walk: Walk): Header['start'] {
  const first = walk.token;
  let written = '';
  let { end } = first;
  while (![';', ',', ')', ''].includes(word(walk))) {
    written += word(walk);
    end = walk.token.end;
    step(walk);
  }
  const digit = /^(?:1'[bB])?([01xX])$/.exec(written)?.[1].toLowerCase() as '0' | '1' | 'x' | undefined;
  if (digit === undefined) return 'bad';
  return { digit, at: { start: first.start as UnitOffset, end: end as UnitOffset } };
}

/** Character by character: `01` are two levels of two inputs, in parentheses one edge. */
function readRows(text: string, from: number): PrimitiveRow[] | null {
  const rows: PrimitiveRow[] = [];
  for (let offset = skipBlank(text, from); ; offset = skipBlank(text, offset)) {
    if (text.startsWith('endtable', offset)) return rows;
    const fields: string[][] = [[]];
    const start = offset;
    for (; text[offset] !== ';'; offset = skipBlank(text, offset)) {
      const symbol = symbolAt(text, offset);
      if (symbol === null) return null;
      if (symbol.text === ':') fields.push([]);
      else fields[fields.length - 1].push(symbol.text);
      offset = symbol.end;
    }
    offset += 1;
    const row = rowOf({ start: start as UnitOffset, end: offset as UnitOffset }, fields);
    if (row === null) return null;
    rows.push(row);
  }
}

function symbolAt(text: string, offset: number): { readonly text: string; readonly end: number } | null {
  const character = (text[offset] ?? '').toLowerCase();
  if (/[01x?brfpn*:-]/.test(character)) return { text: character, end: offset + 1 };
  const edge = /^\(\s*([01x?b])\s*([01x?b])\s*\)/i.exec(text.slice(offset, offset + 12));
  return edge === null ? null : { text: `${edge[1]}${edge[2]}`.toLowerCase(), end: offset + edge[0].length };
}

function rowOf(at: At, fields: readonly (readonly string[])[]): PrimitiveRow | null {
  const [inputs, middle, last] = fields;
  if (fields.length === 2 && middle.length === 1 && /^[01x]$/.test(middle[0])) {
    return { at, inputs, state: null, next: middle[0] };
  }
  if (fields.length !== 3 || middle.length !== 1 || last.length !== 1) return null;
  if (!/^[01x?b]$/.test(middle[0]) || !/^[01x-]$/.test(last[0])) return null;
  return { at, inputs, state: middle[0], next: last[0] };
}
