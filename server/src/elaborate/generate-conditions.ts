// Which branch of a conditional generate construct is taken (IEEE 1364-2005 12.4.2): by constants, to the letter.

import { caseMatches, isTrue } from '../netlist/ieee';
import type { Expression, GenerateBlock, Item } from '../syntax/tables';
import { toBits } from './constant-value';
import { contextIn } from './constants';
import type { ExpressionContext } from './expression-context';
import type { ModuleDraft } from './module-draft';
import { sayNotConstant } from './not-constant';
import type { Scope } from './scope';
import { commonType } from './lower';

export type Condition =
  | { readonly kind: 'known'; readonly isTrue: boolean }
  | { readonly kind: 'unknown'; readonly complaint: number };

export type Chosen =
  | { readonly kind: 'chosen'; readonly block: GenerateBlock | null }
  | { readonly kind: 'unknown'; readonly complaint: number };

/** An x or z condition is false, as in any `if` (9.4). */
export function isConditionTrue(draft: ModuleDraft, scope: Scope, expression: Expression): Condition {
  const context = contextIn(draft, scope);
  const value = context.constant(expression);
  if (value === null) return notConstant(context, expression);
  return { kind: 'known', isTrue: value.kind === 'real' ? value.value !== 0 : isTrue(value.bits) };
}

export function chosenBranch(draft: ModuleDraft, scope: Scope, item: Extract<Item, { kind: 'generate-if' }>): Chosen {
  const condition = isConditionTrue(draft, scope, item.condition);
  if (condition.kind === 'unknown') return condition;
  return { kind: 'chosen', block: condition.isTrue ? item.then : item.else };
}

export function chosenCase(draft: ModuleDraft, scope: Scope, item: Extract<Item, { kind: 'generate-case' }>): Chosen {
  const context = contextIn(draft, scope);
  const labels = item.items.flatMap((entry) => entry.labels);
  for (const expression of [item.selector, ...labels]) {
    if (context.constant(expression) === null) return notConstant(context, expression);
  }
  const type = commonType(context, [item.selector, ...labels]);
  const bitsOf = (expression: Expression) => {
    const value = context.constant(expression);
    return toBits(value?.kind === 'bits' ? { ...value, signed: type.signed } : (value ?? zeroValue), type.width);
  };
  const selector = bitsOf(item.selector);
  const taken =
    item.items.find((entry) => entry.labels.some((label) => caseMatches('case', selector, bitsOf(label)))) ??
    item.items.find((entry) => entry.isDefault);
  return { kind: 'chosen', block: taken?.body ?? null };
}

const zeroValue = { kind: 'real', value: 0 } as const;

function notConstant(context: ExpressionContext, expression: Expression): { kind: 'unknown'; complaint: number } {
  return { kind: 'unknown', complaint: sayNotConstant(context, expression) };
}
