// Calls inside one another: each may stand so deep, and a static function or task only once (IEEE 1364-2005 10.2.1: the
// variables of one that is not automatic are shared by all its calls).

import type { At } from '../syntax/tables';
import type { ModuleDraft } from './module-draft';
import type { Frame, SubroutineEntity } from './scope';

export interface Called {
  readonly subroutine: SubroutineEntity;
  readonly frame: Frame;
}

/** Levels that a call costs beside those of its statements and expressions. */
const callLevels = 4;

/** Calls may take twice the levels that one statement may: recursion over the bits of a word is common. */
const deepestCalls = 2;

/** Null where the call may be followed (then `leaveCall` must come), else the complaint. */
export function enterCall(draft: ModuleDraft, called: Called, at: At): number | null {
  const { calls, limits, log, source } = draft;
  const { item } = called.subroutine;
  const { name } = item.name;
  const place = source.place(at);
  if (!item.automatic && called.frame.running.count > 0) {
    const what = item.result === null ? 'task' : 'function';
    return log.add('recursive-static', { name, what }, place);
  }
  if (calls.depth === 0) startCounting(draft);
  const deeper = calls.depth + called.frame.height + callLevels;
  if (deeper > limits.nesting * deepestCalls) {
    return log.add('limit', { limit: 'nesting', value: limits.nesting, name }, place);
  }
  calls.count++;
  if (calls.count > limits.unroll)
    return log.add('limit', { limit: 'unroll', value: limits.unroll, name: `calls of ${name}` }, place);
  calls.depth = deeper;
  called.frame.running.count++;
  return null;
}

function startCounting({ calls }: ModuleDraft): void {
  calls.count = 0;
  calls.steps.count = 0;
}

export function leaveCall({ calls }: ModuleDraft, { frame }: Called): void {
  calls.depth -= frame.height + callLevels;
  frame.running.count--;
}
