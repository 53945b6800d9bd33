// One slice read. Modules become tables, and so does what interfaces, packages and text between units hold; other design
// units are known by name only.

import { wordsOf } from './production-words';
import type { UnitOffset } from '../text/place';
import { parseFlat } from './copy-tree';
import { unexpectedWord } from './damage';
import { childrenOf, type FlatTree, kindOf, unwrap } from './flat-tree';
import { readItems } from './items';
import { moduleForm } from './module-form';
import { isTooLong, readModuleOfAnyLength, tooLong } from './long-unit';
import { readModuleUnit } from './module-unit';
import { canonicalName } from './names';
import { primitiveModule } from './primitive-module';
import { readPrimitiveText } from './primitive-text';
import { openReader } from './reader';
import { shortened } from './reasons';
import { type Remark, remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { At, Item, ModuleTable, Named, OtherUnitTable } from './tables';
import { nextToken, openComment, wordOf } from './tokens';
import { isCut, unclosedComment, unclosedUnit } from './unclosed';
import { namelessUnit, type ReadingTools, type UnitReading } from './unit-reading';
import type { UnitSlice } from './units';

export function readUnit(unit: UnitSlice, tools: ReadingTools): UnitReading {
  switch (unit.slice.what) {
    case 'module':
      return readModuleOfAnyLength(unit, tools);
    case 'loose':
      return readLoose(unit, tools);
    case 'primitive':
      return readPrimitive(unit);
    case 'interface':
    case 'package':
      return readInModuleForm(unit, unit.slice.what, tools);
    default:
      return readOther(unit, unit.slice.what);
  }
}

function readInModuleForm(unit: UnitSlice, what: 'interface' | 'package', tools: ReadingTools): UnitReading {
  const form = moduleForm(unit.text, what);
  const { table, remarks } = readModuleUnit({ ...unit, text: form.text }, tools);
  if (table.kind !== 'module') return readOther(unit, what);
  const describes = { ...table, items: [...form.items, ...table.items] };
  const { at, name } = table;
  return { table: { kind: 'other', at, what, name, describes }, remarks: [...form.remarks, ...remarks] };
}

/** A primitive whose table says what hardware it is; any other is known by name only. */
function readPrimitive(unit: UnitSlice): UnitReading {
  const { settings, slice, text } = unit;
  const written = slice.closed ? readPrimitiveText(text) : null;
  const { celldefine, timeUnit, timePrecision, defaultNet } = settings;
  const inForce = { celldefine, timeUnit, timePrecision, defaultNet };
  const describes = written === null ? null : primitiveModule(written, inForce);
  if (written === null || describes === null) return readOther(unit, 'primitive');
  return { table: { ...namelessUnit(text, 'primitive'), name: written.name, describes }, remarks: [] };
}

/** A design unit that is not read: its name, so that uses of it are known. */
function readOther(unit: UnitSlice, what: Exclude<OtherUnitTable['what'], 'loose'>): UnitReading {
  const { slice, text } = unit;
  const word = nextToken(text, 0);
  const following = nextToken(text, word.end);
  const second = wordOf(text, following) === 'automatic' || wordOf(text, following) === 'static';
  const token = second ? nextToken(text, following.end) : following;
  const at: At = { start: word.start as UnitOffset, end: (token.kind === 'name' ? token.end : word.end) as UnitOffset };
  const remarks = [remark('construct', { what }, at)];
  if (!slice.closed && !isCut(unit)) remarks.push(unclosedUnit(unit));
  const named: Named = { start: token.start as UnitOffset, end: at.end, name: canonicalName(wordOf(text, token)) };
  return { table: { ...namelessUnit(text, what), name: token.kind === 'name' ? named : null }, remarks };
}

/** Text between units: declarations for the units of its file. The rest is said once for each thing in it. */
function readLoose({ text, noted, settings }: UnitSlice, { parser, copier, limits }: ReadingTools): UnitReading {
  const table = namelessUnit(text, 'loose');
  const comment = openComment(text);
  if (comment !== null) return { table, remarks: [unclosedComment(text, comment)] };
  if (nextToken(text, 0).kind === 'end') return { table, remarks: [] };
  if (isTooLong(text)) return { table, remarks: [remark('construct', { what: tooLong }, firstWordOf(text))] };
  const tree = parseFlat(copier, text, (offset) => offset);
  if (tree.damaged) return { table, remarks: noted.length > 0 ? [] : [firstUnexpected(text, parser)] };
  const parts = looseParts(tree);
  const unread = parts.filter((part) => !isDeclaration(tree, part)).slice(0, limits.complaints);
  const remarks = unread.map((part) => unreadPart(tree, text, part));
  const reader = openReader({ tree, text, standIns: new Map(), externals: new Map() }, { limits, remarks });
  const items = parts.filter((part) => isDeclaration(tree, part)).flatMap((part) => readItems(reader, part));
  return {
    table: { ...table, describes: items.length === 0 ? null : looseModule(table.at, items, settings) },
    remarks,
  };
}

/** What may stand outside every unit (IEEE 1800-2017 3.12.1) and declares a name that modules may use. */
function isDeclaration(tree: FlatTree, part: number): boolean {
  const kind = kindOf(tree, part);
  return looseItems.has(kind) || (kind === 'data_declaration' && looseItems.has(kindOf(tree, unwrap(tree, part))));
}

function looseModule(at: At, items: readonly Item[], settings: UnitSlice['settings']): ModuleTable {
  const { celldefine, timeUnit, timePrecision, defaultNet } = settings;
  return {
    kind: 'module',
    at,
    name: { start: at.start, end: at.start, name: '$unit' },
    parameters: [],
    ports: [],
    slots: [],
    ansi: true,
    headerWhole: true,
    items,
    celldefine,
    timeUnit,
    timePrecision,
    defaultNet,
  };
}

function looseParts(tree: FlatTree): readonly number[] {
  return childrenOf(tree, 0).filter((part) => kindOf(tree, part) !== ';');
}

function unreadPart(tree: FlatTree, text: string, part: number): Remark {
  const at = { start: tree.start[part] as UnitOffset, end: tree.end[part] as UnitOffset };
  const what = kindOf(tree, part).startsWith('data')
    ? shortened(text.slice(at.start, at.end))
    : wordsOf(kindOf(tree, part));
  return remark('construct', { what: `${what} outside a module` }, at);
}

function firstWordOf(text: string): At {
  const { start, end } = nextToken(text, 0);
  return { start: start as UnitOffset, end: end as UnitOffset };
}

function firstUnexpected(text: string, parser: SliceParser): Remark {
  const failure = parser.firstFailure(text) ?? { start: text.length, end: text.length };
  const token = nextToken(text, failure.start < text.length ? failure.start : 0);
  const at = { start: token.start as UnitOffset, end: token.end as UnitOffset };
  return unexpectedWord(wordOf(text, token), at);
}

const looseItems: ReadonlySet<string> = new Set([
  'package_import_declaration',
  'parameter_declaration',
  'local_parameter_declaration',
  'function_declaration',
  'task_declaration',
  'type_declaration',
]);
