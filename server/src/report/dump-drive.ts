// A value change dump as drive: which of its scopes is the design, and what that does to the design's inputs. Nothing is
// guessed where the dump is silent: a port that it lacks, or holds in another width, is left to what is assumed anyway.

import type { Limits } from '../budget';
import type { BenchWave } from '../netlist/bench';
import { type Bits, bitsOf } from '../netlist/four-state';
import type { Netlist, Signal } from '../netlist/netlist';
import type { Assumption } from '../predict/drive';
import type { Teller, ToldWave } from '../predict/drive-told';
import { includeCandidates } from '../syntax/includes';
import type { Project } from './project';
import { type DumpHeader, type DumpInstant, type DumpVariable, readDumpChanges, readDumpHeader } from './read-dump';

/** The dump that the project names. */
export interface DumpAsked {
  /** Where it is looked for, as the study has paths. */
  readonly path: string;
  /** As the person wrote it. */
  readonly file: string;
  /** `tb.dut`; null: the scope that has most of the design's ports. */
  readonly scope: string | null;
}

/** `folder`: where the project's own paths start from, with `/` at its end; empty for the current folder. */
export function askedDump({ dump }: Project, folder: string): DumpAsked | null {
  if (dump === null) return null;
  const [path] = includeCandidates(`${folder}foretick.json`, dump.file, []);
  return { path, ...dump };
}

export interface DumpDrive {
  readonly waves: ReadonlyMap<string, ToldWave>;
  readonly assumptions: readonly Assumption[];
}

/** `text`: null where no such file is at hand. */
export function* driveOfDump(
  { file, scope: stated }: DumpAsked,
  text: string | null,
  netlist: Netlist,
  limits: Limits,
): Generator<void, DumpDrive> {
  const nothing = (reason: string, args: Readonly<Record<string, string | number>> = {}): DumpDrive => ({
    waves: new Map(),
    assumptions: [noteOn(file, reason, args)],
  });
  if (text === null) return nothing('drive-dump-absent');
  const header = yield* readDumpHeader(text);
  if (header.isExtended) return nothing('drive-dump-extended');
  if (header.variables.length === 0) return nothing('drive-dump-unread', { line: header.unreadLine ?? 1 });
  const ports = netlist.signals.filter(({ instance, port }) => port !== null && instance === netlist.top);
  const scope = stated ?? scopeOf(header, ports);
  if (scope === null) return nothing('drive-dump-no-port');
  const variables = header.variables.filter((variable) => variable.scope === scope);
  if (variables.length === 0) return nothing('drive-dump-scope', { scope });
  const inputs = ports
    .filter(({ port }) => port === 'input')
    .map((signal) => ({ signal, parts: variables.flatMap((variable) => partOf(signal, variable) ?? []) }))
    .filter(({ parts }) => parts.length > 0);
  const codes = new Set(inputs.flatMap(({ parts }) => parts.map(({ code }) => code)));
  const { instants, isWhole, unreadLine } = yield* readDumpChanges(text, header, { codes, limit: limits.changes });
  const teller: Teller = { kind: 'dump', name: `${file}, scope ${scope}` };
  const followed = yield* wavesFrom(inputs, instants);
  const waves = new Map(
    inputs.map(({ signal }, index) => [signal.name, { teller, place: null, wave: followed[index] }] as const),
  );
  const line = header.unreadLine ?? unreadLine;
  const at = instants.at(-1)?.at ?? 0;
  return {
    waves,
    assumptions: [
      ...(line === null ? [] : [noteOn(file, 'drive-dump-unread', { line })]),
      ...(isWhole ? [] : [noteOn(file, 'drive-dump-limit', { at, limit: limits.changes })]),
    ],
  };
}

function noteOn(dump: string, reason: string, args: Readonly<Record<string, string | number>>): Assumption {
  return { about: 'dump', value: dump, source: 'given', why: { reason, args: { dump, ...args } }, place: null };
}

/** The scope with most of the design's ports; of several the innermost, since a bench often calls its signals alike. */
function scopeOf({ variables }: DumpHeader, ports: readonly Signal[]): string | null {
  const byName = new Map(ports.map((signal) => [signal.localName, signal]));
  const found = new Map<string, Set<string>>();
  for (const variable of variables) {
    const signal = byName.get(variable.name);
    if (signal === undefined || partOf(signal, variable)?.low == null) continue;
    found.set(variable.scope, (found.get(variable.scope) ?? new Set()).add(variable.name));
  }
  const isBetter = (one: string, other: string) => {
    const [many, few] = [found.get(one)?.size ?? 0, found.get(other)?.size ?? 0];
    return many !== few ? many > few : one.split('.').length > other.split('.').length;
  };
  return [...found.keys()].reduce<string | null>(
    (best, scope) => (best === null || isBetter(scope, best) ? scope : best),
    null,
  );
}

interface Part {
  readonly code: string;
  readonly width: number;
  /** Its lowest bit in the signal, counted from the signal's lsb; null where it does not fit. */
  readonly low: number | null;
}

type KnownPart = Part & { readonly low: number };

/** What a variable is of a signal: the whole, whatever its indices, or the bits that they name; null where of another. */
function partOf(signal: Signal, { code, lsb, msb, name, width }: DumpVariable): Part | null {
  if (name !== signal.localName.trimEnd()) return null;
  if (width === signal.width) return { code, width, low: 0 };
  if (msb === null || lsb === null || signal.scalar) return { code, width, low: null };
  const position = (index: number) => (signal.msb >= signal.lsb ? index - signal.lsb : signal.lsb - index);
  const low = Math.min(position(msb), position(lsb));
  const isInside = low >= 0 && low + width <= signal.width && Math.abs(msb - lsb) + 1 === width;
  return { code, width, low: isInside ? low : null };
}

interface DumpedInput {
  readonly signal: Signal;
  readonly parts: readonly Part[];
}

/** By input; null where some part of it does not fit. Work goes by changes, not by inputs times instants. */
function* wavesFrom(
  inputs: readonly DumpedInput[],
  instants: readonly DumpInstant[],
): Generator<void, readonly (BenchWave | null)[]> {
  const followed = inputs.map(({ parts, signal }) =>
    parts.every(isKnownPart) ? { parts, ...createWave(signal.width) } : null,
  );
  const owners = new Map<string, (FollowedInput & { readonly part: KnownPart })[]>();
  for (const input of followed) {
    for (const part of input?.parts ?? []) {
      if (input !== null) owners.set(part.code, [...(owners.get(part.code) ?? []), { ...input, part }]);
    }
  }
  for (const [index, { at, values }] of instants.entries()) {
    const touched = new Set<FollowedInput['wave']>();
    for (const [code, written] of values) {
      for (const { part, wave } of owners.get(code) ?? []) {
        put(wave.digits, part, written);
        touched.add(wave);
      }
    }
    for (const wave of touched) step(wave, at);
    if (index % 1024 === 1023) yield;
  }
  return followed.map((input) =>
    input === null ? null : { start: bitsOf(input.wave.start), changes: input.wave.changes, isWhole: true },
  );
}

interface FollowedInput {
  readonly wave: {
    /** Most significant first. */
    readonly digits: string[];
    readonly changes: { at: number; value: Bits }[];
    start: string;
    before: string;
  };
}

function createWave(width: number): FollowedInput {
  const unknown = 'x'.repeat(width);
  return { wave: { digits: [...unknown], changes: [], start: unknown, before: unknown } };
}

function step(wave: FollowedInput['wave'], at: number): void {
  const now = wave.digits.join('');
  if (at === 0) wave.start = now;
  else if (now !== wave.before) wave.changes.push({ at, value: bitsOf(now) });
  wave.before = now;
}

function isKnownPart(part: Part): part is KnownPart {
  return part.low !== null;
}

/** Left out digits are 0 before 0 and 1, else as the first (table 18-1). */
function put(digits: string[], { low, width }: KnownPart, written: string): void {
  const fill = written[0] === '1' || written[0] === '0' ? '0' : (written[0] ?? 'x');
  const whole = written.slice(-width).padStart(width, fill);
  const first = digits.length - low - width;
  for (let index = 0; index < width; index++) digits[first + index] = whole[index];
}
