// A complaint that is not made yet: a rule that failed, whose consequence is only known once all of the module is.

import type { At } from '../syntax/tables';
import type { ElaborationReason, ElaborationReasons } from './reasons';

export type Failure = {
  [Reason in ElaborationReason]: {
    readonly reason: Reason;
    readonly args: ElaborationReasons[Reason];
    readonly at: At;
  };
}[ElaborationReason];
