// Types, ranges, dimensions and delays: the parts that nets, variables, ports, parameters and gates share.

import { inlineTypeIn, readInline } from './inline-types';
import { atOf, childAmong, childrenOf, isLeaf, kindOf, none, unwrap } from './flat-tree';
import { readExpression } from './expressions';
import { isName, nameOf } from './names';
import { plainDecimal } from './numbers';
import { type Reader, remarkOn, textOf, unsupported } from './reader';
import type { WrittenType } from './written-type';
import type { DelayTable, Expression, NetType, Range, TypeName, TypeTable, VariableType } from './tables';

export const plainType: TypeTable = { signed: false, ranges: [] };

/** Reads the type found anywhere below `nodes`, which stand before the declared names. */
export function readType(reader: Reader, nodes: readonly number[]): WrittenType {
  const named = namedType(reader, nodes);
  const words = named === null ? typeWords(reader, nodes) : wordsBeside(reader, nodes, named);
  if (named === null && words.some((word) => inlineWords.has(word))) return readWrittenOut(reader, nodes);
  const net = words.find((word) => netTypes.has(word)) as NetType | undefined;
  const variable = words.find((word) => variableTypes.has(word));
  const unread = words.find((word) => !understood(word));
  const ranges = unread === undefined ? typeRanges(reader, nodes) : [];
  return {
    net: net ?? null,
    variable: variable === undefined ? null : (renamedTypes.get(variable) ?? (variable as VariableType)),
    type: {
      signed: words.includes('signed') || (alwaysSigned.has(variable ?? '') && !words.includes('unsigned')),
      ranges,
      ...(named === null ? {} : { named }),
    },
    unread: unread ?? null,
  };
}

/** A structure, union or enumeration in full, with the ranges and the sign behind it. */
function readWrittenOut(reader: Reader, nodes: readonly number[]): WrittenType {
  const node = inlineTypeIn(reader, nodes);
  const nothing = { net: null, variable: null, type: plainType };
  if (node === none) return { ...nothing, unread: typeWords(reader, nodes).find((word) => !understood(word)) ?? '' };
  const inline = readInline(reader, node, { type: readType, dimensions: readDimensions });
  if (typeof inline === 'string') return { ...nothing, unread: inline };
  const parts = childrenOf(reader.tree, node);
  const net = wordsBefore(reader, nodes, node).find((word) => netTypes.has(word)) as NetType | undefined;
  const ranges = parts
    .filter((part) => kindOf(reader.tree, part) === 'packed_dimension')
    .flatMap((part) => readRange(reader, part));
  const signed = parts.some((part) => kindOf(reader.tree, part) === 'signed');
  return { net: net ?? null, variable: null, type: { signed, ranges, inline }, unread: null };
}

function wordsBefore(reader: Reader, nodes: readonly number[], inner: number): readonly string[] {
  return typeLeaves(reader, nodes)
    .filter((leaf) => leaf < inner)
    .map((leaf) => textOf(reader, leaf));
}

/** t, p::t or $unit::t where a type's keyword could stand; null for types that keywords make. */
function namedType(reader: Reader, nodes: readonly number[]): TypeName | null {
  const names = typeLeaves(reader, nodes).filter((leaf) => isNameInType(reader, leaf));
  const isKeyword = typeLeaves(reader, nodes).some((leaf) => {
    const word = textOf(reader, leaf);
    return !names.includes(leaf) && word !== '::' && !silentWords.has(word) && !netTypes.has(word);
  });
  if (names.length < 1 || names.length > 2 || isKeyword) return null;
  const [first, last] = [nameOf(reader, names[0]), nameOf(reader, names[names.length - 1])];
  return { start: first.start, end: last.end, scope: names.length === 2 ? first : null, name: last };
}

function isNameInType(reader: Reader, leaf: number): boolean {
  return isName(kindOf(reader.tree, leaf)) || textOf(reader, leaf) === '$unit';
}

function wordsBeside(reader: Reader, nodes: readonly number[], { start, end }: TypeName): readonly string[] {
  return typeLeaves(reader, nodes)
    .filter((leaf) => reader.tree.start[leaf] < start || reader.tree.end[leaf] > end)
    .map((leaf) => textOf(reader, leaf));
}

/** [msb:lsb] of packed dimensions, outermost first. */
function typeRanges(reader: Reader, nodes: readonly number[]): readonly Range[] {
  return nodes.flatMap((node) => {
    const found: number[] = [];
    for (let part = node; part < reader.tree.after[node]; part += 1) {
      if (kindOf(reader.tree, part) === 'packed_dimension') found.push(part);
    }
    return found.flatMap((dimension) => readRange(reader, dimension));
  });
}

/** The words of a type without its ranges. A type of another kind gives its keyword or its name. */
function typeWords(reader: Reader, nodes: readonly number[]): readonly string[] {
  return typeLeaves(reader, nodes).map((leaf) => textOf(reader, leaf));
}

function typeLeaves(reader: Reader, nodes: readonly number[]): readonly number[] {
  return nodes.flatMap((node) => {
    const leaves: number[] = [];
    for (let part = node; part < reader.tree.after[node]; part += 1) {
      const kind = kindOf(reader.tree, part);
      if (kind === 'packed_dimension' || strengths.has(kind)) part = reader.tree.after[part] - 1;
      else if (isLeaf(reader.tree, part)) leaves.push(part);
    }
    return leaves;
  });
}

function understood(word: string): boolean {
  return netTypes.has(word) || variableTypes.has(word) || silentWords.has(word);
}

/** A packed or unpacked dimension: [a:b], or [n] meaning [0:n-1] (IEEE 1800-2017 7.4.2). Others are remarked on. */
export function readRange(reader: Reader, dimension: number): readonly Range[] {
  const parts = childrenOf(reader.tree, dimension);
  const at = atOf(reader.tree, dimension);
  const inner = parts.length === 3 ? unwrap(reader.tree, parts[1]) : none;
  if (inner === none || kindOf(reader.tree, dimension) === 'associative_dimension') {
    unsupported(reader, dimension, `dimension ${textOf(reader, dimension)}`);
    return [];
  }
  if (kindOf(reader.tree, inner) !== 'constant_range') return [{ at, ...sizedRange(readExpression(reader, inner)) }];
  const [msb, , lsb] = childrenOf(reader.tree, inner);
  return [{ at, msb: readExpression(reader, msb), lsb: readExpression(reader, lsb) }];
}

function sizedRange(size: Expression): { readonly msb: Expression; readonly lsb: Expression } {
  const one = plainDecimal(size.at, '1');
  return {
    msb: plainDecimal(size.at, '0'),
    lsb: { kind: 'binary', at: size.at, operator: '-', left: size, right: one },
  };
}

/** Unpacked dimensions among `nodes`, outermost first. */
export function readDimensions(reader: Reader, nodes: readonly number[]): readonly Range[] {
  return nodes
    .filter((node) => dimensionKinds.has(kindOf(reader.tree, node)))
    .flatMap((node) => readRange(reader, node));
}

/** The delay standing directly below `node`, if any. */
export function readDelayOf(reader: Reader, node: number): DelayTable | null {
  const delay = childAmong(reader.tree, node, delayKinds);
  return delay === none ? null : readDelay(reader, delay);
}

/** #value or #(value, …). */
export function readDelay(reader: Reader, node: number): DelayTable {
  const values = childrenOf(reader.tree, node).filter((child) => !delayMarks.has(kindOf(reader.tree, child)));
  return { at: atOf(reader.tree, node), values: values.map((value) => readExpression(reader, value)) };
}

/** Strengths are read over, and that is said: every driver is taken as strong. */
export function remarkOnStrength(reader: Reader, node: number): void {
  const strength = childAmong(reader.tree, node, driveStrengths);
  if (strength !== none) remarkOn(reader, strength, 'construct', { what: 'strength' });
}

const inlineWords: ReadonlySet<string> = new Set(['struct', 'union', 'enum']);
const netTypes: ReadonlySet<string> = new Set([
  'wire',
  'tri',
  'wand',
  'triand',
  'wor',
  'trior',
  'tri0',
  'tri1',
  'supply0',
  'supply1',
  'uwire',
  'trireg',
]);
const variableTypes: ReadonlySet<string> = new Set([
  'reg',
  'logic',
  'bit',
  'integer',
  'int',
  'time',
  'byte',
  'shortint',
  'longint',
  'real',
  'realtime',
  'shortreal',
  'genvar',
]);
/** IEEE 1364-2005 4.8: realtime is real by another name. A shortreal is a real of less precision. */
const renamedTypes: ReadonlyMap<string, VariableType> = new Map([
  ['realtime', 'real'],
  ['shortreal', 'real'],
]);
/** IEEE 1364-2005 4.8, IEEE 1800-2017 6.11.3. */
const alwaysSigned: ReadonlySet<string> = new Set([
  'integer',
  'int',
  'byte',
  'shortint',
  'longint',
  'real',
  'realtime',
  'shortreal',
]);
const silentWords: ReadonlySet<string> = new Set([
  'signed',
  'unsigned',
  'scalared',
  'vectored',
  'var',
  'static',
  'automatic',
  'const',
  'input',
  'output',
  'inout',
]);
const driveStrengths: ReadonlySet<string> = new Set(['drive_strength', 'pullup_strength', 'pulldown_strength']);
const strengths: ReadonlySet<string> = new Set([...driveStrengths, 'charge_strength']);
const dimensionKinds: ReadonlySet<string> = new Set([
  'unpacked_dimension',
  'unsized_dimension',
  'associative_dimension',
  'queue_dimension',
]);
const delayKinds: ReadonlySet<string> = new Set(['delay2', 'delay3', 'delay_control']);
const delayMarks: ReadonlySet<string> = new Set(['#', '(', ')', ',']);
