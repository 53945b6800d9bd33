// One slice read: a module's text is parsed whole, mended where it is damaged, and walked once into a table.
// Other design units are known by name only.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import { applyEdits, type Edit } from './edits';
import { mendModule } from './mend';
import { renamedWords } from './rescue';
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
import { nextToken, openComment, wordOf } from './tokens';
import { splitWords } from './word-walk';

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

function readModuleUnit(unit: UnitSlice, tools: ReadingTools): UnitReading {
  const { text, settings } = unit;
  const remarks: Remark[] = [];
  const prepared = prepare(unit, remarks);
  const first = parseEdited(tools.parser, text, prepared);
  const mended = first.damaged
    ? mendModule(text, { ...tools, edits: prepared, noted: unit.noted.map(({ at }) => at.start) })
    : null;
  const tree = mended === null ? first : parseEdited(tools.parser, text, mended.edits);
  if (mended !== null) remarks.push(...mended.remarks);
  const reader = openReader({ tree, text, standIns: mended?.standIns ?? new Map() }, { limits: tools.limits, remarks });
  const node = childrenOf(tree, 0).find((child) => kindOf(tree, child) === 'module_declaration');
  const module = node === undefined ? null : readModule(reader, node, settings);
  const headerWhole = mended?.headerWhole ?? true;
  return { table: module === null ? nameless(text, 'loose') : { ...module, headerWhole }, remarks };
}

function parseEdited(parser: SliceParser, text: string, edits: readonly Edit[]): FlatTree {
  if (edits.length === 0) return parseFlat(parser, text, (offset) => offset);
  const edited = applyEdits(text, edits);
  return parseFlat(parser, edited.text, edited.openMap());
}

/** What is known before parsing: a closing word that is missing, and words that are only names here. */
function prepare(unit: UnitSlice, remarks: Remark[]): readonly Edit[] {
  const { slice, text, settings } = unit;
  const edits: Edit[] = settings.verilogWordsOnly ? [...renamedWords(splitWords(text))] : [];
  if (slice.closed) return edits;
  const comment = openComment(text);
  if (comment !== null) edits.push({ start: comment, end: text.length, text: ' ', owner: comment });
  if (!isCut(unit)) remarks.push(comment === null ? unclosedUnit(unit) : unclosedComment(text, comment));
  return [...edits, { start: text.length, end: text.length, text: '\nendmodule', owner: text.length }];
}

/** The text ends here because a limit did, which has been said. */
function isCut({ noted }: UnitSlice): boolean {
  return noted.some((each) => each.reason === 'limit');
}

function unclosedUnit({ text, slice }: UnitSlice): Remark {
  const opening = nextToken(text, 0);
  const name = nextToken(text, opening.end);
  const end = name.kind === 'name' ? name.end : opening.end;
  const word = wordOf(text, opening);
  const expected = slice.what === 'module' ? 'endmodule' : `end${word}`;
  return remark('unclosed', { what: word, expected }, { start: opening.start as UnitOffset, end: end as UnitOffset });
}

function unclosedComment(text: string, start: number): Remark {
  const end = Math.min(text.length, start + 2);
  return remark(
    'unclosed',
    { what: 'comment', expected: '*/' },
    { start: start as UnitOffset, end: end as UnitOffset },
  );
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
  return { table: { ...nameless(text, what), name: token.kind === 'name' ? named : null }, remarks };
}

/** Text between units: said once for each thing in it, or once where it is damaged. */
function readLoose({ text, noted }: UnitSlice, { parser, limits }: ReadingTools): UnitReading {
  const table = nameless(text, 'loose');
  const comment = openComment(text);
  if (comment !== null) return { table, remarks: [unclosedComment(text, comment)] };
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
