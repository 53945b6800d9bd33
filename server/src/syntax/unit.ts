// One slice read: its text parsed whole, walked once into a table, and what was wrong with it.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import { kindOf, parseFlat, childrenOf } from './flat-tree';
import { type InForce, readModule } from './module';
import { openReader } from './reader';
import { type Remark, remark } from './remark';
import type { Slice } from './slices';
import type { SliceParser } from './slice-parser';
import type { At, UnitTable } from './tables';

export interface UnitReading {
  readonly table: UnitTable;
  readonly remarks: readonly Remark[];
}

export interface UnitSource {
  readonly what: Slice['what'];
  readonly text: string;
  readonly inForce: InForce;
}

export function readUnit(source: UnitSource, parser: SliceParser, limits: Limits): UnitReading {
  const remarks: Remark[] = [];
  const whole: At = { start: 0 as UnitOffset, end: source.text.length as UnitOffset };
  const tree = parseFlat(parser, source.text, (offset) => offset);
  const reader = openReader({ tree, text: source.text, standIns: new Map() }, { limits, remarks });
  const module = childrenOf(tree, 0).find((node) => kindOf(tree, node) === 'module_declaration');
  const table = module === undefined ? null : readModule(reader, module, source.inForce);
  if (table !== null) return { table, remarks };
  remarks.push(remark('unexpected-end', {}, whole));
  return { table: { kind: 'other', at: whole, what: 'loose', name: null }, remarks };
}
