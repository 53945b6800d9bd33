// What reading one unit takes and gives.

import type { Limits } from '../budget';
import type { UnitOffset } from '../text/place';
import type { TreeCopier } from './copy-tree';
import type { Remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { ModuleTable, OtherUnitTable, UnitTable } from './tables';

export interface UnitReading {
  readonly table: UnitTable;
  /** Placed in the unit's text, in no order. */
  readonly remarks: readonly Remark[];
}

/** What compiler directives have set where a unit begins. */
export type Directives = Pick<ModuleTable, 'celldefine' | 'timeUnit' | 'timePrecision' | 'defaultNet'>;

export interface ReadingTools {
  readonly parser: SliceParser;
  readonly copier: TreeCopier;
  readonly limits: Limits;
}

export function namelessUnit(text: string, what: OtherUnitTable['what']): OtherUnitTable {
  return {
    kind: 'other',
    at: { start: 0 as UnitOffset, end: text.length as UnitOffset },
    what,
    name: null,
    describes: null,
  };
}
