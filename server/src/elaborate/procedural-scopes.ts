// Blocks inside processes that declare something: each is a scope from the start, so that hierarchical names reach it
// (IEEE 1364-2005 9.8.2, 12.7). A block without a name keeps its names to itself, and so does a loop that declares its
// variable: `for (integer i = 0; …)`.

import type { Statement } from '../syntax/tables';
import { declareItems } from './declarations';
import { statementsIn } from '../syntax/statements-in';
import { addSignal, type ModuleDraft } from './module-draft';
import { createScope, type Scope } from './scope';

/** Declares every block below a process's statement. */
export function* declareBlocks(draft: ModuleDraft, scope: Scope, body: Statement): Generator<void, void> {
  const stack: { readonly statement: Statement; readonly scope: Scope }[] = [{ statement: body, scope }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const inner = yield* declareBlock(draft, top.scope, top.statement);
    for (const statement of statementsIn(top.statement).reverse()) stack.push({ statement, scope: inner });
  }
}

/** The scope inside a statement: its own where it is a block or a loop that has one. */
export function scopeInside(scope: Scope, statement: Statement): Scope {
  return scope.blocks.get(statement) ?? scope;
}

function* declareBlock(draft: ModuleDraft, scope: Scope, statement: Statement): Generator<void, Scope> {
  if (statement.kind === 'for') return declareLoop(draft, scope, statement);
  if (statement.kind !== 'block') return scope;
  const { label, declarations } = statement;
  if (label === null && declarations.length === 0) return scope;
  const inner = createScope(scope, label?.name ?? null);
  scope.blocks.set(statement, inner);
  if (label !== null) {
    if (scope.names.has(label.name)) draft.log.add('declared-twice', { name: label.name }, draft.source.place(label));
    else scope.names.set(label.name, { kind: 'block', at: label, scope: inner });
  }
  yield* declareItems(draft, inner, declarations);
  return inner;
}

/** The loop's own variable is a signed integer of 32 bits. */
function declareLoop(draft: ModuleDraft, outer: Scope, loop: Extract<Statement, { kind: 'for' }>): Scope {
  const { declares, variable } = loop;
  if (!declares || variable.kind !== 'name') return outer;
  const scope = createScope(outer, null);
  outer.blocks.set(loop, scope);
  const shape = { kind: 'variable', type: 'integer', width: 32, msb: 31, lsb: 0, scalar: false, signed: true } as const;
  addSignal(draft, { scope, name: variable.name, at: variable.at, shape, port: null, isPrivate: true });
  return scope;
}
