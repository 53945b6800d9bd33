// The values that the variable of a loop generate construct takes (IEEE 1364-2005 12.4.1), counted before any block is
// made, so that a loop past its limit costs nothing.

import { fromBigInt } from '../netlist/four-state';
import type { Expression, Item, Statement } from '../syntax/tables';
import { type ConstantValue, integerOf, toBits } from './constant-value';
import { contextIn } from './constants';
import { isConditionTrue } from './generate-conditions';
import type { ModuleDraft } from './module-draft';
import { fixedParameter } from './parameters';
import { createScope, type Scope } from './scope';

type Loop = Extract<Item, { kind: 'generate-for' }>;

export type LoopValues =
  | { readonly kind: 'known'; readonly values: readonly number[] }
  | { readonly kind: 'unknown'; readonly complaint: number };

/** Yields now and then. */
export function* loopValues(draft: ModuleDraft, scope: Scope, loop: Loop): Generator<void, LoopValues> {
  const step = stepExpression(loop);
  if (step === null) return unreadable(draft, loop.step);
  const values: number[] = [];
  let next = evaluate(draft, scope, loop, loop.start, null);
  for (;;) {
    if (next === null) return unreadable(draft, values.length === 0 ? loop.start : step);
    const inner = withVariable(scope, loop, next);
    const condition = isConditionTrue(draft, inner, loop.condition);
    if (condition.kind === 'unknown') return condition;
    if (!condition.isTrue) return { kind: 'known', values };
    if (values.length >= draft.limits.unroll) return { kind: 'unknown', complaint: pastLimit(draft, loop) };
    values.push(next);
    if (values.length % 256 === 0) yield;
    next = evaluate(draft, scope, loop, step, next);
  }
}

/** `i = expression` is the only step there is; the reader writes `i++` so. */
function stepExpression({ step, variable }: Loop): Expression | null {
  const isOwn = step.kind === 'assign' && step.target.kind === 'name' && step.target.name === variable.name;
  return isOwn ? step.value : null;
}

function evaluate(draft: ModuleDraft, scope: Scope, loop: Loop, expression: Expression, current: number | null) {
  const inner = current === null ? scope : withVariable(scope, loop, current);
  const value = contextIn(draft, inner).constant(expression);
  return value === null ? null : integerOf({ kind: 'bits', bits: toBits(value, 32), signed: true });
}

function withVariable(scope: Scope, { variable }: Loop, value: number): Scope {
  const inner = createScope(scope, null);
  const constant: ConstantValue = { kind: 'bits', bits: fromBigInt(32, BigInt(value)), signed: true };
  inner.names.set(variable.name, fixedParameter(variable.name, variable, constant));
  return inner;
}

function unreadable(draft: ModuleDraft, { kind, at }: Expression | Statement): LoopValues {
  if (kind === 'hole') return { kind: 'unknown', complaint: -1 };
  const what = draft.source.textOf(at);
  return { kind: 'unknown', complaint: draft.log.add('not-constant', { what }, draft.source.place(at)) };
}

function pastLimit(draft: ModuleDraft, loop: Loop): number {
  const args = { limit: 'unroll', value: draft.limits.unroll, name: loop.variable.name } as const;
  return draft.log.add('limit', args, draft.source.place(loop.at));
}
