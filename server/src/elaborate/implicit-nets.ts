// Nets that need no declaration (IEEE 1364-2005 4.5): undeclared names in connections of instances and gates, and as
// targets of continuous assignments, are scalar nets of the default type, in the scope they appear in.

import type { Expression, InstanceTable } from '../syntax/tables';
import { isTooDeep, operandsOf } from './expression-depth';
import { addSignal, type ModuleDraft, type Work } from './module-draft';
import { lookUp, type Scope } from './scope';

export function declareImplicitNets(draft: ModuleDraft): void {
  if (draft.table.defaultNet === 'none') return;
  for (const work of [...draft.work]) declareFor(draft, work);
}

function declareFor(draft: ModuleDraft, work: Work): void {
  if (work.kind === 'child') declareConnected(draft, work.child.scope, work.child.table);
  if (work.kind !== 'item') return;
  const { item, scope } = work;
  if (item.kind === 'assign') declareNames(draft, scope, item.target);
  if (item.kind === 'gate') for (const instance of item.instances) declareConnected(draft, scope, instance);
}

function declareConnected(draft: ModuleDraft, scope: Scope, { connections }: InstanceTable): void {
  for (const { value } of connections) if (value !== null) declareNames(draft, scope, value);
}

/** A name with a select is no scalar: it stays undeclared. */
function declareNames(draft: ModuleDraft, scope: Scope, expression: Expression): void {
  if (isTooDeep(draft, expression)) return;
  const { kind, at } = expression;
  if (kind === 'name') {
    if (lookUp(scope, expression.name) === null) declareNet(draft, scope, expression.name, at);
    return;
  }
  if (kind === 'index' || kind === 'range' || kind === 'member' || kind === 'scoped') return;
  for (const operand of operandsOf(expression)) declareNames(draft, scope, operand);
}

function declareNet(draft: ModuleDraft, scope: Scope, name: string, at: Expression['at']): void {
  const type = draft.table.defaultNet;
  const shape = { kind: 'net', type, width: 1, msb: 0, lsb: 0, scalar: true, signed: false } as const;
  addSignal(draft, { scope, name, at, shape, port: null, isPrivate: false });
}
