// A damaged header keeps the parameters and ports that are whole by themselves. The others are left out, with those that
// take their type from one of them: the header then does not tell all, and what is left out is named as lost.

import type { UnitOffset } from '../text/place';
import { type Edit, editsWithin } from './edits';
import { type HeaderEntry, headerParts } from './header-entries';
import type { Mending } from './mending';
import { isWhole } from './probe';
import { shortened } from './reasons';
import { remark } from './remark';
import type { At } from './tables';
import { type Construct, firstFrom, wordsIn } from './word-walk';

/** False, and nothing done, where no entry can be kept. */
export function keepEntries(mending: Mending, header: Construct): boolean {
  const parts = headerParts(mending.text, mending.structure, header);
  if (parts === null) return false;
  const kept = parametersFirst(wholeEntries(mending, parts.entries));
  if (kept.length === 0) return false;
  const before = mending.edits;
  mending.edits = [...editsOutside(before, header, kept), ...gapEdits(parts.head, header, kept)];
  if (!isWhole(mending, header, mending.edits)) {
    mending.edits = before;
    return false;
  }
  if (kept.length < parts.entries.length) mending.header = 'in part';
  for (const entry of parts.entries) if (!kept.includes(entry)) mending.lostEntries.push(atOf(entry));
  return true;
}

/**
 * Where the body declares the ports, the header lists names alone; but two names without a comma between them are a type and
 * a port to the grammar, which then refuses the body. Such an entry is lost, and said.
 */
export function loseTypedNames(mending: Mending): void {
  const { header, items, words } = mending.structure;
  const declaresPorts = items.some(({ start }) => directions.has(words[firstFrom(mending.structure, start)]));
  const entries = headerParts(mending.text, mending.structure, header)?.entries ?? [];
  const typed = entries.find(({ kind, follows }) => kind === 'port' && !follows);
  if (!declaresPorts || typed === undefined || entries.some(({ leads }) => leads)) return;
  if (!isWhole(mending, typed, mending.edits) || !keepEntries(mending, header)) return;
  const [, second] = wordsIn(mending.structure, typed.start, typed.end);
  const { start, end } = mending.structure.tokens[second];
  const at = { start: start as UnitOffset, end: end as UnitOffset };
  mending.remarks.push(remark('unexpected', { text: shortened(words[second]) }, at));
}

const directions: ReadonlySet<string> = new Set(['input', 'output', 'inout']);

function wholeEntries(mending: Mending, entries: readonly HeaderEntry[]): readonly HeaderEntry[] {
  const saysDirections = entries.some(({ leads }) => leads);
  // A list of names alone holds no ports with types, and a list of ports no names before the first direction.
  const namesOnly = !saysDirections && entries.some(({ kind, follows }) => kind === 'port' && follows);
  let leader = !saysDirections;
  return entries.filter((entry) => {
    const whole = isWhole(mending, entry, mending.edits);
    if (entry.kind === 'parameter') return whole;
    if (namesOnly) return whole && entry.follows;
    if (!entry.follows) leader = whole;
    return whole && leader;
  });
}

/** Edits inside what is kept stay; all others of the header go. */
function editsOutside(edits: readonly Edit[], header: Construct, kept: readonly HeaderEntry[]): readonly Edit[] {
  const inside = new Set(editsWithin(edits, header.start, header.end));
  const isKept = (edit: Edit) => kept.some(({ start, end }) => edit.start >= start && edit.end <= end);
  return edits.filter((edit) => !inside.has(edit) || isKept(edit));
}

/** What stands between the entries is written anew. */
function gapEdits(head: number, header: Construct, kept: readonly HeaderEntry[]): readonly Edit[] {
  const edits: Edit[] = [];
  let end = head;
  let list: HeaderEntry['kind'] | 'none' = 'none';
  for (const entry of kept) {
    edits.push({ start: end, end: entry.start, text: gapText(list, entry.kind), owner: header.start });
    end = entry.end;
    list = entry.kind;
  }
  // A list of ports lets port declarations stand in the body.
  const text = list === 'parameter' ? ')(open);' : ');';
  return [...edits, { start: end, end: Math.max(end, header.end), text, owner: header.start }];
}

/** What follows a port and looks like a parameter is none of the header's. */
function parametersFirst(entries: readonly HeaderEntry[]): readonly HeaderEntry[] {
  const first = entries.findIndex(({ kind }) => kind === 'port');
  return entries.filter(({ kind }, index) => kind === 'port' || first < 0 || index < first);
}

function gapText(before: HeaderEntry['kind'] | 'none', next: HeaderEntry['kind']): string {
  if (before === next) return ', ';
  if (before === 'none') return next === 'parameter' ? ' #(' : ' (';
  return ') (';
}

function atOf({ start, end }: HeaderEntry): At {
  return { start: start as UnitOffset, end: end as UnitOffset };
}
