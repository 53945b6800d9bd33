// What `return`, `break` and `continue` mean where the walk stands: kept while statements are read.

import type { At, Named } from './tables';

/** What a jump may leave here, innermost last. */
export interface JumpTargets {
  readonly subroutines: { readonly name: Named; readonly hasResult: boolean }[];
  readonly loops: LoopTarget[];
}

export interface LoopTarget {
  readonly at: At;
  readonly number: number;
  isBroken: boolean;
  isContinued: boolean;
}

export function noJumps(): JumpTargets {
  return { subroutines: [], loops: [] };
}
