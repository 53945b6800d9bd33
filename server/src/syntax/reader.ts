// What every reading function is handed: the copied tree, the unit's text, where remarks go, and how deep the
// walk may still descend.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import { atOf, type FlatTree, kindOf } from './flat-tree';
import { type Reason, type ReasonTable, shortened } from './reasons';
import { type JumpTargets, noJumps } from './jump-targets';
import { type Remark, remark } from './remark';
import type { At, Expression, Named } from './tables';

export interface Reader {
  readonly tree: FlatTree;
  /** The unit's text, which the tree's offsets index. */
  readonly text: string;
  readonly remarks: Remark[];
  /** Stretches that stand in for what could not be read, by their start: their remark has been made. */
  readonly standIns: ReadonlyMap<number, StandIn>;
  /** External names of a header's ports, by where the port's expression begins. */
  readonly externals: ReadonlyMap<number, Named>;
  readonly nestingLimit: number;
  /** What `return`, `break` and `continue` leave where the walk stands. */
  readonly jumps: JumpTargets;
  depth: number;
}

export interface StandIn {
  readonly at: At;
  readonly names: readonly Named[];
  /** What a port's place in a header holds, where it has been read without the grammar. */
  readonly expression?: Expression;
}

/** Deeper than this a walk would itself run out of stack, whatever the setting: some levels cost ten calls. */
const deepestWalk = 400;

export function nestingLimitOf(limits: Limits): number {
  return Math.min(limits.nesting, deepestWalk);
}

export function openReader(
  source: Pick<Reader, 'tree' | 'text' | 'standIns' | 'externals'>,
  options: { readonly limits: Limits; readonly remarks: Remark[] },
): Reader {
  return {
    ...source,
    remarks: options.remarks,
    nestingLimit: nestingLimitOf(options.limits),
    jumps: noJumps(),
    depth: 0,
  };
}

/** The stand-in that the node is, if it is one. */
export function standInOf(reader: Reader, node: number): StandIn | null {
  const standIn = reader.standIns.get(reader.tree.start[node]);
  return standIn !== undefined && standIn.at.end === reader.tree.end[node] ? standIn : null;
}

export function textOf(reader: Reader, node: number): string {
  return reader.text.slice(reader.tree.start[node], reader.tree.end[node]);
}

export function remarkOn<R extends Reason>(reader: Reader, node: number, reason: R, args: ReasonTable[R]): void {
  reader.remarks.push(remark(reason, args, atOf(reader.tree, node)));
}

/** Says that the node is recognized and not read. */
export function unsupported(reader: Reader, node: number, what: string): void {
  // Damage that mending left is no construct.
  if (kindOf(reader.tree, node) === 'ERROR')
    remarkOn(reader, node, 'unexpected', { text: shortened(textOf(reader, node)) });
  else remarkOn(reader, node, 'construct', { what: shortened(what) });
}

export function holeExpression(reader: Reader, node: number, what: string): Expression {
  unsupported(reader, node, what);
  return { kind: 'hole', at: atOf(reader.tree, node) };
}

/** True where the walk may go one level down; else the limit is reported at the node. */
export function mayDescend(reader: Reader, node: number): boolean {
  if (reader.depth < reader.nestingLimit) return true;
  remarkOn(reader, node, 'limit', { limit: 'nesting', value: reader.nestingLimit });
  return false;
}

export function between(start: At, end: At): At {
  return { start: start.start, end: end.end };
}

export function emptyAt(offset: number): At {
  return { start: offset as UnitOffset, end: offset as UnitOffset };
}
