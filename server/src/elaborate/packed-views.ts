// Parts of packed values that members and indices lead to (IEEE 1800-2017 7.2.1, 7.4.1): which steps lead there, and what
// stands there. A constant index is a fixed step; one that varies, or lies outside, is kept as it is written.

import { type ArrayForm, type PackedForm, partOfIndex } from '../netlist/packed-form';
import type { Expression } from '../syntax/tables';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';

export interface View {
  readonly steps: readonly ViewStep[];
  readonly form: PackedForm;
}

export type ViewStep =
  /** Bits [low + width - 1 : low] of what the steps before lead to. */
  | { readonly kind: 'fixed'; readonly low: number; readonly width: number }
  /** One of the elements of an array. */
  | { readonly kind: 'index'; readonly index: Expression; readonly of: ArrayForm };

export function viewOfElement(
  context: ExpressionContext,
  before: readonly ViewStep[],
  of: ArrayForm,
  index: Expression,
): View {
  const form = of.element;
  const value = context.constant(index);
  const number = value === null ? null : integerOf(value);
  const part = number === null ? -1 : partOfIndex(of, number);
  const isInside = part >= 0 && (part + 1) * form.width <= of.width;
  if (!isInside) return { steps: [...before, { kind: 'index', index, of }], form };
  return { steps: withFixed(before, part * form.width, form.width), form };
}

export function viewOfMember(before: readonly ViewStep[], low: number, form: PackedForm): View {
  return { steps: withFixed(before, low, form.width), form };
}

function withFixed(before: readonly ViewStep[], low: number, width: number): readonly ViewStep[] {
  const last = before[before.length - 1];
  if (last?.kind !== 'fixed') return [...before, { kind: 'fixed', low, width }];
  return [...before.slice(0, -1), { kind: 'fixed', low: last.low + low, width }];
}
