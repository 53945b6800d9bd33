// One slice read. Modules become tables; other design units are known by name only, and text between units
// is said to be unread.

import { wordsOf } from './production-words';
import type { UnitOffset } from '../text/place';
import { parseFlat } from './copy-tree';
import { childrenOf, type FlatTree, kindOf } from './flat-tree';
import { readModuleUnit } from './module-unit';
import { canonicalName } from './names';
import { primitiveModule } from './primitive-module';
import { readPrimitiveText } from './primitive-text';
import { shortened } from './reasons';
import { type Remark, remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { At, Named, OtherUnitTable } from './tables';
import { nextToken, openComment, wordOf } from './tokens';
import { isCut, unclosedComment, unclosedUnit } from './unclosed';
import { namelessUnit, type ReadingTools, type UnitReading } from './unit-reading';
import type { UnitSlice } from './units';

export function readUnit(unit: UnitSlice, tools: ReadingTools): UnitReading {
  switch (unit.slice.what) {
    case 'module':
      return readModuleUnit(unit, tools);
    case 'loose':
      return readLoose(unit, tools);
    case 'primitive':
      return readPrimitive(unit);
    default:
      return readOther(unit, unit.slice.what);
  }
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

/** Text between units: said once for each thing in it, or once where it is damaged. */
function readLoose({ text, noted }: UnitSlice, { parser, copier, limits }: ReadingTools): UnitReading {
  const table = namelessUnit(text, 'loose');
  const comment = openComment(text);
  if (comment !== null) return { table, remarks: [unclosedComment(text, comment)] };
  if (nextToken(text, 0).kind === 'end') return { table, remarks: [] };
  const tree = parseFlat(copier, text, (offset) => offset);
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
