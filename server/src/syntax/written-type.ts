// What reading hands on of a type before it knows what is declared by it.

import type { NetType, TypeTable, VariableType } from './tables';

/** What a declaration says before its names. */
export interface WrittenType {
  readonly net: NetType | null;
  readonly variable: VariableType | null;
  readonly type: TypeTable;
  /** What of it the tables cannot hold, in the source's words; null where they can. */
  readonly unread: string | null;
}
