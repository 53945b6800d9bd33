// Finds, in a module that the grammar could not read whole, the constructs that are damaged, says what is
// wrong at each, and takes each one out, so that the rest can be read. A lost construct leaves a stand-in
// that becomes a hole in the tables. Only what can be meant in one way is put back.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import { remarkOnFailure } from './damage';
import type { Edit } from './edits';
import { structureOf } from './item-words';
import type { FlatTree } from './flat-tree';
import { keepEntries, loseTypedNames } from './header-mend';
import { damagedStretches, suspectItems } from './suspects';
import { isExhausted, isLost, lose, loseHeader, loseRest, type MendedHeader, type Mending } from './mending';
import { putBacks } from './put-back';
import { type Failing, isWhole, probe, probeWhole } from './probe';
import { nestingLimitOf, type StandIn } from './reader';
import { type Remark, remark } from './remark';
import { rescueEdits, type Words } from './rescue';
import type { SliceParser } from './slice-parser';
import type { At } from './tables';
import { type Construct, firstFrom, wordsIn } from './word-walk';

export interface Mended {
  /** The tree of the text as mended. */
  readonly tree: FlatTree;
  readonly standIns: ReadonlyMap<number, StandIn>;
  readonly remarks: readonly Remark[];
  readonly header: MendedHeader;
  /** Parameters and ports that the header has lost: each by itself, or all in one stretch. */
  readonly lostEntries: readonly At[];
}

export interface MendOptions {
  readonly parser: SliceParser;
  readonly limits: Limits;
  /** Edits that hold whatever else is found. */
  readonly edits: readonly Edit[];
  /** Offsets where the preprocessor has already complained. */
  readonly noted: readonly number[];
  /** The text's damaged tree, which holds until the next parse. */
  readonly damaged: FlatTree;
  /** Parses the whole text with edits. */
  readonly parse: (edits: readonly Edit[]) => FlatTree;
}

export function mendModule(text: string, options: MendOptions): Mended {
  const structure = structureOf(text, nestingLimitOf(options.limits));
  const mending: Mending = {
    parser: options.parser,
    text,
    work: Math.min(text.length * probesPerCharacter, text.length * 4 + 1_000_000) + 10_000,
    structure,
    noted: options.noted,
    standIns: new Map(),
    remarks: [...structure.remarks],
    lost: new Set(),
    lossLimit: options.limits.complaints,
    edits: [...options.edits, ...structure.edits],
    header: 'whole',
    lostEntries: [],
  };
  loseTypedNames(mending);
  const suspects = suspectItems(structure, damagedStretches(options.damaged));
  const others = structure.items.filter((item) => !suspects.has(item));
  if (suspects.has(structure.header)) mendConstruct(mending, structure.header);
  mendItems(
    mending,
    structure.items.filter((item) => suspects.has(item)),
  );
  const first = options.parse(mending.edits);
  if (!first.damaged) return { ...mending, tree: first };
  if (!suspects.has(structure.header)) mendConstruct(mending, structure.header);
  mendItems(mending, others);
  settle(mending);
  return { ...mending, tree: options.parse(mending.edits) };
}

/** Text with this much damage is no module any more: what is left of it, from here on, is lost as one. */
function mendItems(mending: Mending, items: readonly Construct[]): void {
  for (const item of items) {
    if (isExhausted(mending)) return;
    if (!loseTooDeep(mending, item)) mendConstruct(mending, item);
    if (isExhausted(mending)) loseRest(mending, item);
  }
}

/** An item whose inside is nested too deep is not looked into. */
function loseTooDeep(mending: Mending, item: Construct): boolean {
  const { tooDeep, nestingLimit } = mending.structure;
  const start = tooDeep.find((offset) => offset >= item.start && offset < item.end);
  if (start === undefined || isWhole(mending, item, mending.edits)) return false;
  const at = { start: item.start as UnitOffset, end: item.end as UnitOffset };
  mending.remarks.push(remark('limit', { limit: 'nesting', value: nestingLimit }, at));
  lose(mending, item);
  return true;
}

/** Every level of nesting around a damaged place is parsed anew; this, and less for long text, bounds the whole. */
const probesPerCharacter = 30;

/** Inner constructs first, so that no more is lost than must be. */
function mendConstruct(mending: Mending, construct: Construct): void {
  if (isWhole(mending, construct, mending.edits)) return;
  for (const inner of construct.inner) {
    mendConstruct(mending, inner);
    if (isExhausted(mending)) return;
  }
  let failing = probe(mending, construct, mending.edits);
  for (let tries = 0; failing !== null && tries < rescueTries; tries += 1) {
    const next = rescue(mending, construct, failing);
    if (next === failing) break;
    failing = next;
  }
  if (failing === null || putBack(mending, construct, failing)) return;
  remarkOn(mending, construct, failing);
  if (construct.kind !== 'header') lose(mending, construct);
  else if (!keepEntries(mending, construct)) loseHeader(mending, construct);
}

/** Each rescue may bring the next refused word to light. */
const rescueTries = 8;

/** What still fails after the edits of `rescue.ts`; `failing` itself where they do not help. */
function rescue(mending: Mending, construct: Construct, failing: Failing): Failing | null {
  const { edits, standIns } = rescueEdits(wordsOutside(mending, construct), failing.start);
  const made = new Set(mending.edits.map(placeOf));
  const fresh = edits.filter((edit) => !made.has(placeOf(edit)));
  if (fresh.length === 0) return failing;
  const next = probe(mending, construct, [...mending.edits, ...fresh]);
  if (next !== null && next.start <= failing.start) return failing;
  mending.edits = [...mending.edits, ...fresh];
  for (const standIn of standIns) mending.standIns.set(standIn.at.start, standIn);
  return next;
}

function placeOf({ start, end }: Edit): string {
  return `${start} ${end}`;
}

/** The construct's own words, without those of what it holds. */
function wordsOutside({ structure }: Mending, { start, end, inner }: Construct): Words {
  const own = wordsIn(structure, start, end).filter((index) => {
    const token = structure.tokens[index];
    return !inner.some((each) => token.start >= each.start && token.end <= each.end);
  });
  return { tokens: own.map((index) => structure.tokens[index]), words: own.map((index) => structure.words[index]) };
}

/** Puts one token back or leaves one out where that makes a whole; what follows it is looked at by itself. */
function putBack(mending: Mending, construct: Construct, failing: Failing): boolean {
  const { start, end, kind } = construct;
  for (const { edit, remark, until } of putBacks(mending, construct, failing)) {
    if (kind === 'one' && until < end) continue;
    if (!isWhole(mending, { start, end: until, kind }, [...mending.edits, edit])) continue;
    mending.edits = [...mending.edits, edit];
    mending.remarks.push(remark);
    const [next] = wordsIn(mending.structure, until, end);
    if (next === undefined) return true;
    const rest = { start: mending.structure.tokens[next].start, end, inner: [] };
    mendConstruct(mending, { ...rest, kind: kind === 'header' ? 'item' : kind });
    return true;
  }
  return false;
}

function remarkOn(mending: Mending, { start, end }: Construct, failing: Failing): void {
  const [first] = wordsIn(mending.structure, start, end);
  // The grammar refuses some forms that the standard allows; the block is read from its words.
  if (mending.structure.words[first] === 'specify') return;
  const { tokens } = mending.structure;
  const reach = tokens[firstFrom(mending.structure, end)]?.start ?? mending.text.length;
  const isInside = (offset: number) => offset >= start && offset < Math.max(end, reach);
  // A macro without text or a closing word that is missing has been said: what follows from it is not.
  if (mending.noted.some(isInside) || mending.structure.remarks.some((each) => isInside(each.at.start))) return;
  mending.remarks.push(remarkOnFailure(mending, { start, end }, failing));
}

/** Constructs that are whole by themselves may not be so together: the one that fails is lost, a few times over. */
function settle(mending: Mending): void {
  for (let round = 0; round < settleRounds; round += 1) {
    const failing = probeWhole(mending, mending.edits);
    if (failing === null) return;
    const item = mending.structure.items.filter((each) => each.start <= failing.start && !isLost(mending, each)).at(-1);
    if (item === undefined) break;
    remarkOn(mending, item, failing);
    lose(mending, item);
  }
  for (const item of mending.structure.items) if (!isLost(mending, item)) lose(mending, item);
  if (mending.header !== 'lost' && probeWhole(mending, mending.edits) !== null)
    loseHeader(mending, mending.structure.header);
}

const settleRounds = 8;
