// The scope of a loop that declares its variable for itself: `for (integer i = 0; …)`.

import type { Statement } from '../syntax/tables';
import { addSignal, type ModuleDraft } from './module-draft';
import { createScope, type Scope } from './scope';

type ForLoop = Extract<Statement, { kind: 'for' }>;

/** A scope that holds the loop's own variable, a signed integer of 32 bits; the outer one where it declares none. */
export function loopScope(draft: ModuleDraft, outer: Scope, { declares, variable }: ForLoop): Scope {
  if (!declares || variable.kind !== 'name') return outer;
  const scope = createScope(outer, null);
  const shape = { kind: 'variable', type: 'integer', width: 32, msb: 31, lsb: 0, scalar: false, signed: true } as const;
  addSignal(draft, { scope, name: variable.name, at: variable.at, shape, port: null, isLoopOwn: true });
  return scope;
}
