// What every reading of an expression needs to know about the module around it.

import type { Limits } from '../budget';
import type { Expression } from '../syntax/tables';
import type { ComplaintLog } from './complaint-log';
import type { ConstantValue } from './constant-value';
import type { Scope } from './scope';
import type { UnitSource } from './source';

export interface ExpressionContext {
  readonly source: UnitSource;
  readonly log: ComplaintLog;
  readonly limits: Limits;
  readonly moduleName: string;
  readonly scope: Scope;
  /** The constant an expression stands for by IEEE 1364-2005 5 to the letter; null where it reads what varies. */
  constant(expression: Expression): ConstantValue | null;
  /** What stands inside an instance below; null where its module was not read. */
  below(child: number): InstanceBelow | null;
}

/** An instance seen from its parent: the names inside it, and what an instance inside it is. */
export interface InstanceBelow {
  readonly scope: Scope;
  below(child: number): InstanceBelow | null;
}
