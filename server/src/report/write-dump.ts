// A run as a value change dump (IEEE 1364-2005 clause 18, four-state form), for programs that read one. Whole signals in
// their scopes, times in ps. No date: the same run gives the same bytes. What is assumed stands in comments.

import type { Netlist, Signal } from '../netlist/netlist';
import { memoryWords } from '../netlist/netlist';
import type { Waves } from '../predict/waves';
import { levelAt } from '../predict/wave-query';
import { toolVersion } from './version';

export function* writeDump(netlist: Netlist, waves: Waves, comments: readonly string[]): Generator<void, string> {
  const words = memoryWords(netlist);
  const signals = netlist.signals.filter(({ id }) => !words.has(id));
  const dumped = signals.map((signal, index) => ({ signal, code: codeOf(index) }));
  const lines = [
    `$version Foretick ${toolVersion} $end`,
    ...comments.map((comment) => `$comment ${comment.replaceAll('$', '')} $end`),
    '$timescale 1 ps $end',
    ...scopeLines(netlist, dumped),
    '$enddefinitions $end',
  ];
  yield;
  const changes = yield* changesByTime(waves, dumped);
  lines.push('#0', '$dumpvars', ...dumped.map(({ code, signal }) => valueLine(waves, signal, code, 0)), '$end');
  for (const [time, changed] of changes) {
    const told = [...changed].map(({ code, signal }) => valueLine(waves, signal, code, time));
    lines.push(`#${time}`, ...told);
    if (lines.length % 1024 < told.length) yield;
  }
  lines.push(`#${waves.end}`);
  return `${lines.join('\n')}\n`;
}

interface Dumped {
  readonly signal: Signal;
  readonly code: string;
}

/** Printable characters, the first digit the lowest (18.2.1: codes of `!` to `~`). */
function codeOf(index: number): string {
  let code = '';
  for (let rest = index; ; rest = Math.floor(rest / 94) - 1) {
    code += String.fromCharCode(33 + (rest % 94));
    if (rest < 94) return code;
  }
}

interface ScopeTree {
  readonly kind: 'module' | 'begin';
  readonly variables: string[];
  readonly inner: Map<string, ScopeTree>;
}

function scopeLines(netlist: Netlist, dumped: readonly Dumped[]): readonly string[] {
  const top: ScopeTree = { kind: 'module', variables: [], inner: new Map() };
  for (const { code, signal } of dumped) {
    scopeOf(netlist, top, signal).variables.push(variableLine(signal, code));
  }
  return linesOf(netlist.instances[netlist.top].module, top);
}

/** An instance's scope is a module, that of a generate or procedural block between it and the signal a begin. */
function scopeOf({ instances }: Netlist, top: ScopeTree, { instance, localName, name }: Signal): ScopeTree {
  const { path } = instances[instance];
  const blocks = name.slice(path === '' ? 0 : path.length + 1, -localName.length).replace(/\.$/, '');
  let scope = top;
  for (const [kind, names] of [
    ['module', path],
    ['begin', blocks],
  ] as const) {
    for (const part of names === '' ? [] : names.split('.')) {
      const inner: ScopeTree = scope.inner.get(part) ?? { kind, variables: [], inner: new Map() };
      scope.inner.set(part, inner);
      scope = inner;
    }
  }
  return scope;
}

function linesOf(name: string, { inner, kind, variables }: ScopeTree): readonly string[] {
  return [
    `$scope ${kind} ${name.trimEnd()} $end`,
    ...variables,
    ...[...inner].flatMap(([part, scope]) => linesOf(part, scope)),
    '$upscope $end',
  ];
}

function variableLine({ kind, localName, lsb, msb, scalar, type, width }: Signal, code: string): string {
  const written = kind === 'net' ? 'wire' : type === 'integer' ? 'integer' : 'reg';
  return `$var ${written} ${width} ${code} ${localName.trimEnd()}${scalar ? '' : ` [${msb}:${lsb}]`} $end`;
}

/** In order of time; at each the signals of which some bit changes, in order of declaration. */
function* changesByTime(
  waves: Waves,
  dumped: readonly Dumped[],
): Generator<void, readonly (readonly [number, readonly Dumped[]])[]> {
  const found = new Map<number, Set<Dumped>>();
  for (const one of dumped) {
    const { node, width } = one.signal;
    for (let bit = 0; bit < width; bit++) {
      for (const change of Array.from(waves.changesOf({ node, bit }))) {
        const time = waves.changes.time[change];
        const at = found.get(time) ?? new Set();
        found.set(time, at.add(one));
      }
    }
    yield;
  }
  return [...found]
    .filter(([time]) => time > 0 && time < waves.end)
    .sort(([left], [right]) => left - right)
    .map(([time, set]) => [time, [...set]]);
}

function valueLine(waves: Waves, { node, scalar, width }: Signal, code: string, time: number): string {
  let digits = '';
  for (let bit = width - 1; bit >= 0; bit--) digits += '01zx'[levelAt(waves, { node, bit }, time, 'after')];
  return scalar ? `${digits}${code}` : `b${shortest(digits)} ${code}`;
}

/** Leading digits that reading would put there again are left out: 0 before 0 or 1, x before x, z before z (table 18-1). */
function shortest(digits: string): string {
  const [first] = digits;
  let from = 0;
  while (from + 1 < digits.length && digits[from] === first && isFilledBy(first, digits[from + 1])) from++;
  return digits.slice(from);
}

function isFilledBy(digit: string, next: string): boolean {
  return digit === '0' ? next === '0' || next === '1' : digit !== '1' && next === digit;
}
