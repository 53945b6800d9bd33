// The state of mending one module, and how a construct is given up.

import type { UnitOffset } from '../text/place';
import { namesDrivenIn, namesTouchedIn } from './driven-names';
import { type Edit, editsWithin } from './edits';
import type { Structure } from './item-words';
import type { ProbeTools } from './probe';
import type { StandIn } from './reader';
import { type Remark, remark } from './remark';
import type { At } from './tables';
import type { Construct } from './word-walk';

export interface Mending extends ProbeTools {
  readonly structure: Structure;
  readonly noted: readonly number[];
  readonly standIns: Map<number, StandIn>;
  readonly remarks: Remark[];
  readonly lost: Set<Construct>;
  /** With this many losses mending gives up. */
  readonly lossLimit: number;
  edits: readonly Edit[];
  header: MendedHeader;
  readonly lostEntries: At[];
}

/** `in part`: some parameters and ports are left out; `lost`: nothing but the name is read. */
export type MendedHeader = 'whole' | 'in part' | 'lost';

/** Puts a stand-in in the construct's place. */
export function lose(mending: Mending, construct: Construct): void {
  const { start, end, kind } = construct;
  const at = { start: start as UnitOffset, end: end as UnitOffset };
  if (kind === 'stray' || kind === 'header') {
    mending.edits = [...mending.edits, { start, end, text: ' ', owner: start }];
    mending.lost.add(construct);
    return;
  }
  const names =
    kind === 'item' || kind === 'declaration' ? namesTouchedIn(mending.text, at) : namesDrivenIn(mending.text, at);
  const inside = new Set(editsWithin(mending.edits, start, end));
  mending.edits = [
    ...mending.edits.filter((edit) => !inside.has(edit)),
    { start, end, text: standInTexts[kind], owner: start },
  ];
  mending.standIns.set(start, { at, names });
  mending.lost.add(construct);
}

const standInTexts: Readonly<Record<Exclude<Construct['kind'], 'header' | 'stray'>, string>> = {
  item: ';',
  // `always` takes no lone semicolon for its statement.
  statement: 'begin end',
  one: 'begin end',
  declaration: 'reg open;',
};

/** The module's name stays. */
export function loseHeader(mending: Mending, header: Construct): void {
  const { tokens } = mending.structure;
  const name = tokens.findIndex((token) => token.kind === 'name');
  const from = name < 0 || tokens[name].end > header.end ? header.start : tokens[name].end;
  const inside = new Set(editsWithin(mending.edits, header.start, header.end));
  // A list of ports lets port declarations stand in the body.
  const text = from === header.start ? 'module unnamed(open);' : '(open);';
  mending.edits = [
    ...mending.edits.filter((edit) => !inside.has(edit)),
    { start: from, end: header.end, text, owner: header.start },
  ];
  mending.header = 'lost';
  mending.lostEntries.push({ start: from as UnitOffset, end: header.end as UnitOffset });
}

/** Everything from here on, as one. */
export function loseRest(mending: Mending, from: Construct): void {
  const { items } = mending.structure;
  const rest: Construct = { kind: 'item', start: from.start, end: items[items.length - 1].end, inner: [] };
  const at = { start: rest.start as UnitOffset, end: rest.end as UnitOffset };
  mending.remarks.push(remark('construct', { what: 'text too damaged to mend' }, at));
  lose(mending, rest);
}

/** So much is lost, or so much has been parsed, that going on is of no use. */
export function isExhausted({ lost, lossLimit, work }: Mending): boolean {
  return lost.size >= lossLimit || work < 0;
}

export function isLost(mending: Mending, item: Construct): boolean {
  return mending.edits.some((edit) => edit.start <= item.start && edit.end >= item.end && edit.end > edit.start);
}
