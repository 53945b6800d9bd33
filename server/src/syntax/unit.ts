// One slice read: a module's text is parsed whole, mended where it is damaged, and walked once into a table.
// Other design units are known by name only.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import { childrenOf, type FlatTree, kindOf, parseFlat } from './flat-tree';
import { wordsOf } from './expressions';
import { readModule } from './module';
import { canonicalName } from './names';
import { openReader } from './reader';
import { shortened } from './reasons';
import { type Remark, remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { UnitSlice } from './units';
import type { At, Named, OtherUnitTable, UnitTable } from './tables';
import { nextToken, wordOf } from './tokens';

export interface UnitReading {
  readonly table: UnitTable;
  /** Placed in the unit's text, in no order. */
  readonly remarks: readonly Remark[];
}

export interface ReadingTools {
  readonly parser: SliceParser;
  readonly limits: Limits;
}

export function readUnit(unit: UnitSlice, tools: ReadingTools): UnitReading {
  switch (unit.slice.what) {
    case 'module':
      return readModuleUnit(unit, tools);
    case 'loose':
      return readLoose(unit, tools);
    default:
      return readOther(unit, unit.slice.what);
  }
}

function readModuleUnit({ text, settings }: UnitSlice, { parser, limits }: ReadingTools): UnitReading {
  const remarks: Remark[] = [];
  const tree = parseFlat(parser, text, (offset) => offset);
  const reader = openReader({ tree, text, standIns: new Map() }, { limits, remarks });
  const node = childrenOf(tree, 0).find((child) => kindOf(tree, child) === 'module_declaration');
  const module = node === undefined ? null : readModule(reader, node, settings);
  return { table: module ?? nameless(text, 'loose'), remarks };
}

/** A design unit that is not read: its name, so that uses of it are known. */
function readOther({ slice, text }: UnitSlice, what: Exclude<OtherUnitTable['what'], 'loose'>): UnitReading {
  const word = nextToken(text, 0);
  const following = nextToken(text, word.end);
  const second = wordOf(text, following) === 'automatic' || wordOf(text, following) === 'static';
  const token = second ? nextToken(text, following.end) : following;
  const at: At = { start: word.start as UnitOffset, end: (token.kind === 'name' ? token.end : word.end) as UnitOffset };
  const remarks = [remark('construct', { what }, at)];
  if (!slice.closed) remarks.push(remark('unclosed', { what, expected: `end${what}` }, at));
  const named: Named = { start: token.start as UnitOffset, end: at.end, name: canonicalName(wordOf(text, token)) };
  return { table: { ...nameless(text, what), name: token.kind === 'name' ? named : null }, remarks };
}

/** Text between units: said once for each thing in it, or once where it is damaged. */
function readLoose({ text, noted }: UnitSlice, { parser, limits }: ReadingTools): UnitReading {
  const table = nameless(text, 'loose');
  if (nextToken(text, 0).kind === 'end') return { table, remarks: [] };
  const tree = parseFlat(parser, text, (offset) => offset);
  if (!tree.damaged)
    return {
      table,
      remarks: looseParts(tree)
        .slice(0, limits.complaints)
        .map((part) => unreadPart(tree, text, part)),
    };
  return { table, remarks: noted.length > 0 ? [] : [firstUnexpected(text, parser)] };
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

function firstUnexpected(text: string, parser: SliceParser): Remark {
  const failure = parser.firstFailure(text) ?? { start: text.length, end: text.length };
  const token = nextToken(text, failure.start < text.length ? failure.start : 0);
  const at = { start: token.start as UnitOffset, end: token.end as UnitOffset };
  return remark('unexpected', { text: shortened(wordOf(text, token)) }, at);
}

function nameless(text: string, what: OtherUnitTable['what']): OtherUnitTable {
  return { kind: 'other', at: { start: 0 as UnitOffset, end: text.length as UnitOffset }, what, name: null };
}
