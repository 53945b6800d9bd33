// Literals: numbers with their digits as written, reals, times, strings. Values are not worked out here; only
// what IEEE 1364-2005 3.5.1 refuses outright is said.

import { atOf, childrenOf, kindOf } from './flat-tree';
import { type Reader, remarkOn, textOf } from './reader';
import { shortened } from './reasons';
import type { At, Expression } from './tables';

type Base = 'b' | 'o' | 'd' | 'h';
type TimeUnit = 's' | 'ms' | 'us' | 'ns' | 'ps' | 'fs';

/** A run of decimal digits: unsized, signed. */
export function readDecimal(reader: Reader, node: number): Expression {
  return plainDecimal(atOf(reader.tree, node), textOf(reader, node));
}

export function plainDecimal(at: At, digits: string): Expression {
  return { kind: 'number', at, size: null, signed: true, base: 'd', digits: withoutUnderscores(digits) };
}

/** size 'base value, where the size may be left out. */
export function readBased(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const size = parts.length === 3 ? Number(withoutUnderscores(textOf(reader, parts[0]))) : null;
  const base = textOf(reader, parts[parts.length - 2]).toLowerCase();
  const digits = withoutUnderscores(textOf(reader, parts[parts.length - 1]))
    .toLowerCase()
    .replaceAll('?', 'z');
  if (size === 0) remarkOn(reader, node, 'zero-size', { text: shortened(textOf(reader, node)) });
  const at = atOf(reader.tree, node);
  return { kind: 'number', at, size, signed: base.includes('s'), base: base.at(-1) as Base, digits };
}

export function readReal(reader: Reader, node: number): Expression {
  return { kind: 'real', at: atOf(reader.tree, node), value: Number(withoutUnderscores(textOf(reader, node))) };
}

export function readTime(reader: Reader, node: number): Expression {
  const [value, unit] = childrenOf(reader.tree, node).map((part) => textOf(reader, part));
  return {
    kind: 'time',
    at: atOf(reader.tree, node),
    value: Number(withoutUnderscores(value)),
    unit: unit as TimeUnit,
  };
}

/** '0 '1 'x 'z */
export function readFill(reader: Reader, node: number): Expression {
  const digit = textOf(reader, node).slice(-1).toLowerCase() as '0' | '1' | 'x' | 'z';
  return { kind: 'fill', at: atOf(reader.tree, node), digit };
}

export function readString(reader: Reader, node: number): Expression {
  const quotes = kindOf(reader.tree, node) === 'triple_quoted_string' ? 3 : 1;
  const written = textOf(reader, node).slice(quotes, -quotes);
  return { kind: 'string', at: atOf(reader.tree, node), text: unescaped(written) };
}

/** Escapes of IEEE 1364-2005 3.6.3 and IEEE 1800-2017 5.9.1; a backslash before a line end joins the lines. */
function unescaped(written: string): string {
  return written.replace(/\\(\r\n|[0-7]{1,3}|x[0-9a-fA-F]{1,2}|[\s\S])/g, (_whole, guarded: string) => {
    if (/^[0-7]/.test(guarded)) return String.fromCharCode(Number.parseInt(guarded, 8) & 0xff);
    if (/^x./.test(guarded)) return String.fromCharCode(Number.parseInt(guarded.slice(1), 16));
    return escapes.get(guarded) ?? guarded;
  });
}

const escapes: ReadonlyMap<string, string> = new Map([
  ['n', '\n'],
  ['t', '\t'],
  ['v', '\v'],
  ['f', '\f'],
  ['a', '\u0007'],
  ['\n', ''],
  ['\r\n', ''],
]);

function withoutUnderscores(text: string): string {
  return text.includes('_') ? text.replaceAll('_', '') : text;
}
