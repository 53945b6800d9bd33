// Reads a value change dump (IEEE 1364-2005 clause 18, four-state form): which variables it has in which scopes, and what
// some of them hold over time. Other variables are passed by, so that a large dump costs no more than its text. What the
// clause does not know ends the reading, and its line is told.

/** A `$var`: the whole of a variable, or some of its bits. */
export interface DumpVariable {
  /** `tb.dut`, as the dump has it. */
  readonly scope: string;
  readonly name: string;
  readonly width: number;
  /** Declared indices where the dump states them; one alone is a bit. */
  readonly msb: number | null;
  readonly lsb: number | null;
  readonly code: string;
}

export interface DumpHeader {
  readonly variables: readonly DumpVariable[];
  /** fs that one unit of its times stands for. */
  readonly unit: number;
  /** Where the changes begin in the text. */
  readonly body: number;
  /** One-based line at which reading ended; null where all of it was understood. */
  readonly unreadLine: number | null;
  readonly isExtended: boolean;
}

/** What happens at one instant: ps, and by code the digits as written, most significant first. */
export interface DumpInstant {
  readonly at: number;
  readonly values: ReadonlyMap<string, string>;
}

/** Tokens between two yields. */
const tokensPerYield = 4096;

export function* readDumpHeader(text: string): Generator<void, DumpHeader> {
  const tokens = tokensOf(text, 0);
  const variables: DumpVariable[] = [];
  const scopes: string[] = [];
  let unit = 1000;
  let isExtended = false;
  const ended = (unreadLine: number | null): DumpHeader => {
    return { variables, unit, body: tokens.at(), unreadLine, isExtended };
  };
  for (let keyword = tokens.next(); keyword !== null; keyword = tokens.next()) {
    if (tokens.count() % tokensPerYield === 0) yield;
    if (keyword === '$enddefinitions') return ended(tokens.section() === null ? tokens.line() : null);
    const words = keyword.startsWith('$') ? tokens.section() : null;
    if (words === null) return ended(tokens.line());
    if (keyword === '$scope') scopes.push(words[1] ?? '');
    if (keyword === '$upscope') scopes.pop();
    if (keyword === '$timescale') {
      const read = unitOf(words.join(''));
      if (read === null) return ended(tokens.line());
      unit = read;
    }
    if (keyword === '$var') {
      isExtended ||= words[0] === 'port';
      const variable = variableOf(words, scopes.join('.'));
      if (variable === null) return ended(tokens.line());
      variables.push(variable);
    }
  }
  return ended(tokens.line());
}

export interface DumpChanges {
  /** In order of time; the first at 0 or later. */
  readonly instants: readonly DumpInstant[];
  /** False where more than `limit` changes were asked for: the rest is left out. */
  readonly isWhole: boolean;
  readonly unreadLine: number | null;
}

/** The changes of the variables with these codes, no more than `limit` of them. */
export function* readDumpChanges(
  text: string,
  { body, unit }: DumpHeader,
  { codes, limit }: { readonly codes: ReadonlySet<string>; readonly limit: number },
): Generator<void, DumpChanges> {
  const tokens = tokensOf(text, body);
  const instants: { at: number; values: Map<string, string> }[] = [];
  let now = { at: 0, values: new Map<string, string>() };
  let changes = 0;
  const ended = (isWhole: boolean, unreadLine: number | null): DumpChanges => {
    if (now.values.size > 0) instants.push(now);
    return { instants, isWhole, unreadLine };
  };
  for (let token = tokens.next(); token !== null; token = tokens.next()) {
    if (tokens.count() % tokensPerYield === 0) yield;
    if (token === '$comment') {
      if (tokens.section() === null) return ended(true, tokens.line());
      continue;
    }
    if (checkpoints.has(token)) continue;
    if (token.startsWith('#')) {
      const at = instantOf(token.slice(1), unit);
      if (at === null || at < now.at) return ended(true, tokens.line());
      if (at > now.at) {
        if (now.values.size > 0) instants.push(now);
        now = { at, values: new Map() };
      }
      continue;
    }
    const change = changeOf(token, tokens);
    if (change === null) return ended(true, tokens.line());
    if (!codes.has(change.code)) continue;
    changes++;
    if (changes > limit) return ended(false, null);
    now.values.set(change.code, change.digits);
  }
  return ended(true, null);
}

/** Their values stand between the keyword and `$end` in the same form as changes (18.2.3.9 and the tasks of 18.1). */
const checkpoints = new Set(['$dumpvars', '$dumpall', '$dumpon', '$dumpoff', '$end']);

interface Tokens {
  next(): string | null;
  /** The words up to `$end`; null where the text ends before it. */
  section(): readonly string[] | null;
  /** One-based line of the token last read. */
  line(): number;
  at(): number;
  count(): number;
}

function tokensOf(text: string, from: number): Tokens {
  const token = /[^\s]+/g;
  token.lastIndex = from;
  let last = from;
  let count = 0;
  const next = (): string | null => {
    const found = token.exec(text);
    if (found === null) {
      token.lastIndex = text.length;
      return null;
    }
    last = found.index;
    count++;
    return found[0];
  };
  return {
    next,
    section() {
      const words: string[] = [];
      for (let word = next(); word !== null; word = next()) {
        if (word === '$end') return words;
        // A comment may be long, and of all sections the first words tell.
        if (words.length < mostWords) words.push(word);
      }
      return null;
    },
    line: () => text.slice(0, last).split(/\r\n|\r|\n/).length,
    at: () => token.lastIndex,
    count: () => count,
  };
}

const mostWords = 64;

const unitFs: Readonly<Record<string, number>> = { fs: 1, ps: 1e3, ns: 1e6, us: 1e9, ms: 1e12, s: 1e15 };

function unitOf(written: string): number | null {
  const match = /^(1|10|100)(fs|ps|ns|us|ms|s)$/.exec(written);
  return match === null ? null : Number(match[1]) * unitFs[match[2]];
}

/** `type size code reference`, the reference with its indices apart or not. */
function variableOf([type, size, code, ...reference]: readonly string[], scope: string): DumpVariable | null {
  const match = /^(\\\S+|[^\s[]+)\s*(?:\[\s*(-?\d{1,9})\s*(?::\s*(-?\d{1,9})\s*)?\])?$/.exec(reference.join(' '));
  if (type === undefined || match === null || !/^\d{1,9}$/.test(size)) return null;
  const msb = match[2] === undefined ? null : Number(match[2]);
  return {
    scope,
    name: match[1],
    width: Number(size),
    msb,
    lsb: match[3] === undefined ? msb : Number(match[3]),
    code,
  };
}

/** ps, rounded half up; null for what is no time, or one past the exact numbers. */
function instantOf(digits: string, unit: number): number | null {
  if (!/^\d{1,24}$/.test(digits)) return null;
  const ps = (BigInt(digits) * BigInt(unit) + 500n) / 1000n;
  return ps > BigInt(Number.MAX_SAFE_INTEGER) ? null : Number(ps);
}

/** The digits of a change; of a real none, which no port of a circuit holds. */
function changeOf(token: string, tokens: Tokens): { readonly code: string; readonly digits: string } | null {
  const scalar = /^([01xz])(\S+)$/i.exec(token);
  if (scalar !== null) return { code: scalar[2], digits: scalar[1].toLowerCase() };
  const vector = /^b([01xz]+)$/i.exec(token);
  const code = vector !== null || /^r\S+$/i.test(token) ? tokens.next() : null;
  return code === null ? null : { code, digits: vector === null ? '' : vector[1].toLowerCase() };
}
