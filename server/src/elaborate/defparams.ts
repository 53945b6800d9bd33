// `defparam` (IEEE 1364-2005 12.2.1): a value for a parameter of an instance below, by its hierarchical name, over what the
// instance itself is given. Those that reach further down are handed on with the instance. Names that lead upward are not
// followed: there is no such instance then, and that is said.

import type { Expression, Item } from '../syntax/tables';
import { type ConstantValue, integerOf } from './constant-value';
import { contextIn } from './constants';
import type { Defparam, ModuleDraft } from './module-draft';
import { sayNotConstant } from './not-constant';
import type { Scope } from './scope';
import type { Override } from './type-form';

export function declareDefparams(draft: ModuleDraft, scope: Scope, items: readonly Item[]): void {
  for (const item of items) if (item.kind === 'defparam') declareDefparam(draft, scope, item);
}

function declareDefparam(draft: ModuleDraft, scope: Scope, item: Extract<Item, { kind: 'defparam' }>): void {
  const context = contextIn(draft, scope);
  const path = pathOf((index) => context.constant(index), item.target);
  const value = context.constant(item.value);
  if (path !== null && value !== null) {
    draft.defparams.push({ path: `${scope.prefix}${path}`, value, at: item.target.at, isUsed: false });
  } else if (value === null) {
    sayNotConstant(context, item.value);
  } else if (item.target.kind !== 'hole') {
    context.log.add('not-constant', { what: context.source.textOf(item.at) }, context.source.place(item.at));
  }
}

function pathOf(constant: (index: Expression) => ConstantValue | null, target: Expression): string | null {
  if (target.kind === 'name') return target.name;
  if (target.kind === 'member') {
    const base = pathOf(constant, target.base);
    return base === null ? null : `${base}.${target.name.name}`;
  }
  if (target.kind !== 'index') return null;
  const base = pathOf(constant, target.base);
  const value = constant(target.index);
  const index = value === null ? null : integerOf(value);
  return base === null || index === null ? null : `${base}[${index}]`;
}

/** For an instance: names of its parameters, and paths from it down. The last one written counts (12.2.1). */
export function defparamsFor(
  draft: ModuleDraft,
  instance: string,
  module: { readonly name: string; readonly parameters: readonly string[] | null },
): ReadonlyMap<string, ConstantValue> {
  const found = new Map<string, ConstantValue>();
  for (const defparam of draft.defparams) {
    if (!defparam.path.startsWith(`${instance}.`)) continue;
    defparam.isUsed = true;
    const rest = defparam.path.slice(instance.length + 1);
    const isKnown = rest.includes('.') || module.parameters === null || module.parameters.includes(rest);
    if (isKnown) found.set(rest, defparam.value);
    else if (defparam.at !== null) {
      draft.log.add('unknown-parameter', { module: module.name, parameter: rest }, draft.source.place(defparam.at));
    }
  }
  return found;
}

/** Those that no instance of this module stands before. */
export function sayUnusedDefparams({ defparams, log, source }: ModuleDraft): void {
  for (const { at, isUsed } of defparams) {
    if (at !== null && !isUsed) log.add('undeclared-name', { name: source.textOf(at) }, source.place(at));
  }
}

/** What further up was written for instances below this module. */
export function inheritedDefparams(overrides: ReadonlyMap<string, Override>): Defparam[] {
  return [...overrides].flatMap(([path, value]) =>
    path.includes('.') && value.kind !== 'type' ? [{ path, value, at: null, isUsed: false }] : [],
  );
}
