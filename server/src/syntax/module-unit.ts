// A module's unit read: its text parsed whole, mended where it is damaged, and walked once into a table.

import { keywordSetOf } from './directives';
import { applyEdits, type Edit } from './edits';
import { parseFlat, type TreeCopier } from './copy-tree';
import { childrenOf, type FlatTree, kindOf } from './flat-tree';
import { plainHeaderPorts } from './header-ports';
import { type Mended, mendModule } from './mend';
import { namesTouchedIn, namesUsedIn } from './driven-names';
import { readModule } from './module';
import { openReader, type StandIn } from './reader';
import type { Remark } from './remark';
import { renamedWords } from './rescue';
import type { Item, ModuleTable, PortSlot } from './tables';
import { blankNested } from './nested-modules';
import { namelessUnit, type ReadingTools, type UnitReading } from './unit-reading';
import { namesBehindNumbers } from './unit-names';
import { isCut, unclosedComment, unclosedUnit } from './unclosed';
import type { UnitSlice } from './units';
import { nextToken, openComment } from './tokens';
import { splitWords } from './word-walk';

export function readModuleUnit(unit: UnitSlice, tools: ReadingTools): UnitReading {
  const { text, settings } = unit;
  const remarks: Remark[] = [];
  const header = plainHeaderPorts(text);
  const prepared = [...header.edits, ...prepare(unit, remarks)];
  const parse = (edits: readonly Edit[]) => parseEdited(tools.copier, text, edits);
  const first = parse(prepared);
  const noted = unit.noted.map(({ at }) => at.start);
  const mended = first.damaged ? mendModule(text, { ...tools, edits: prepared, noted, damaged: first, parse }) : null;
  const tree = mended === null ? first : mended.tree;
  if (mended !== null) remarks.push(...mended.remarks);
  const standIns = new Map([...header.standIns.map(byStart), ...(mended?.standIns ?? [])]);
  const reader = openReader({ tree, text, standIns, externals: header.externals }, { limits: tools.limits, remarks });
  const node = childrenOf(tree, 0).find((child) => kindOf(tree, child) === 'module_declaration');
  const module = node === undefined ? null : readModule(reader, node, settings);
  if (module === null || module.name.name === '') return { table: namelessUnit(text, 'loose'), remarks };
  return { table: mended === null ? { ...module, headerWhole: true } : withHeader(module, mended, text), remarks };
}

/** What the header has lost is a hole among the items, unless the body declares it. */
function withHeader(module: Omit<ModuleTable, 'headerWhole'>, mended: Mended, text: string): ModuleTable {
  const declared = new Set(module.items.flatMap(declaredNames));
  const lost = mended.lostEntries.map((at): Item => {
    const isName = nextToken(text, at.start).kind === 'name';
    const names = mended.header === 'lost' || isName ? namesUsedIn(text, at) : namesTouchedIn(text, at);
    return { kind: 'hole', at, names: names.filter(({ name }) => !declared.has(name)) };
  });
  const items = [...lost, ...module.items];
  switch (mended.header) {
    case 'whole':
      return { ...module, headerWhole: true };
    case 'in part':
      return { ...module, items, slots: module.slots.filter(isOwnSlot), headerWhole: false };
    case 'lost':
      return { ...module, items, parameters: [], ports: [], slots: [], headerWhole: false };
  }
}

function declaredNames(item: Item): readonly string[] {
  if (item.kind === 'port') return [item.port.declarator.name.name];
  const declares = item.kind === 'net' || item.kind === 'variable' || item.kind === 'parameter';
  return declares ? item.declarators.map(({ name }) => name.name) : [];
}

/** The word that holds the place of a list without ports is nobody's port: `open` is no name of Verilog's. */
function isOwnSlot({ at }: PortSlot): boolean {
  return at.end > at.start;
}

function byStart(standIn: StandIn): readonly [number, StandIn] {
  return [standIn.at.start, standIn];
}

function parseEdited(copier: TreeCopier, text: string, edits: readonly Edit[]): FlatTree {
  if (edits.length === 0) return parseFlat(copier, text, (offset) => offset);
  const edited = applyEdits(text, edits);
  return parseFlat(copier, edited.text, edited.openMap());
}

/** What is known before parsing: a closing word that is missing, and words that are only names here. */
function prepare(unit: UnitSlice, remarks: Remark[]): readonly Edit[] {
  const { slice, text, settings } = unit;
  const set = keywordSetOf(settings);
  const nested = blankNested(text, remarks);
  const renamed = set === null ? [] : renamedWords(splitWords(text), (word) => set.free.has(word));
  const isKept = ({ start }: Edit) => !nested.some((edit) => start >= edit.start && start < edit.end);
  const edits: Edit[] = [...nested, ...[...renamed, ...namesBehindNumbers(text)].filter(isKept)];
  if (slice.closed) return edits;
  const comment = openComment(text);
  if (comment !== null) edits.push({ start: comment, end: text.length, text: ' ', owner: comment });
  if (!isCut(unit)) remarks.push(comment === null ? unclosedUnit(unit) : unclosedComment(text, comment));
  // Of the module around everything: no construct that ends here holds it, and all that is put in here comes before it.
  return [...edits, { start: text.length, end: text.length, text: '\nendmodule', owner: -1 }];
}
