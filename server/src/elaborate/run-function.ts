// A function run on known arguments, by IEEE 1364-2005 10.4 to the letter: for constants, start values and the statements
// of initial blocks. What it cannot be followed through is a complaint, and its result unknown.

import type { Bits } from '../netlist/four-state';
import type { FunctionCall, Reader } from './algebra';
import { enterCall, leaveCall } from './call-guard';
import { runStatement } from './initial-run';
import type { ModuleDraft } from './module-draft';
import { createFrameStore } from './start-store';

/** `outside`: how what is not the function's own reads. */
export function runFunction(draft: ModuleDraft, call: FunctionCall<Bits>, outside: Reader<Bits>): Bits {
  const { frame, subroutine, result, args, expression } = call;
  const { width } = result.shape;
  const refused = enterCall(draft, call, expression.at);
  if (refused !== null) return outside.algebra.hole(width, refused, expression.at);
  let isFollowed = true;
  const store = createFrameStore(outside, (signal, _low, _value, at) => {
    isFollowed = false;
    const args = { name: signal.name, function: subroutine.item.name.name };
    draft.log.add('assigned-outside-function', args, draft.source.place(at));
  });
  for (const [index, { signal }] of frame.ports.entries())
    store.write(signal, 0, args[index], expression.args[index].at);
  const run = { draft, process: null, store, atEnd: [], steps: draft.calls.steps, clockwork: null };
  const outcome = toEnd(runStatement(run, frame.scope, subroutine.item.body, 0));
  leaveCall(draft, call);
  if (isFollowed && outcome !== 'stopped') return store.startOf(result);
  return outside.algebra.hole(width, -1, expression.at);
}

/** An expression asks for its value at once: there is no turn to give back. The statements are counted. */
function toEnd<Result>(steps: Generator<unknown, Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
