// What every reading of an expression needs to know about the module around it.

import type { Limits } from '../budget';
import type { Named } from '../syntax/tables';
import type { Constants } from './algebra';
import type { ComplaintLog } from './complaint-log';
import type { Entity, Scope, SubroutineEntity } from './scope';
import type { UnitSource } from './source';

export interface ExpressionContext extends Constants {
  readonly source: UnitSource;
  readonly log: ComplaintLog;
  readonly limits: Limits;
  readonly moduleName: string;
  readonly scope: Scope;
  /** What pack::name means, in the scope that names it. */
  scoped(scope: Scope, from: Named, name: Named): Entity;
  /** A function or task of an instance below, as this module may call it. */
  subroutineBelow(entity: SubroutineEntity, path: readonly number[], unit: number): SubroutineEntity;
  /** What stands inside an instance below; null where its module was not read. */
  below(child: number): InstanceBelow | null;
}

/** An instance seen from its parent: the names inside it, and what an instance inside it is. */
export interface InstanceBelow {
  readonly scope: Scope;
  /** Of its module. */
  readonly unit: number;
  below(child: number): InstanceBelow | null;
}
