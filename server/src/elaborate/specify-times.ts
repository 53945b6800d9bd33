// Times of a specify block as triples in ps: specparams keep their min:typ:max wherever their name stands, and a list of
// one to twelve path delays becomes twelve by IEEE 1364-2005 14.3.1 and 14.3.2.

import type { DelayTriple } from '../netlist/netlist';
import type { Expression, Item } from '../syntax/tables';
import { contextIn } from './constants';
import { smaller, specifiedTime } from './delays';
import type { ModuleDraft } from './module-draft';
import type { Scope } from './scope';

/** Null with a complaint where it is no constant. Negative as written. */
export function specifiedTriple(draft: ModuleDraft, scope: Scope, value: Expression): DelayTriple | null {
  const context = contextIn(draft, scope);
  const at = (corner: Corner) => specifiedTime(context, draft.table, atCorner(draft, value, corner, 0));
  if (!variesByCorner(draft, value, 0)) {
    const one = at('typ');
    return one === null ? null : { min: one, typ: one, max: one };
  }
  const [min, typ, max] = [at('min'), at('typ'), at('max')];
  return min === null || typ === null || max === null ? null : { min, typ, max };
}

type Corner = 'min' | 'typ' | 'max';

/** Specparams that name one another are followed this far. */
const longestChain = 32;

function variesByCorner(draft: ModuleDraft, value: Expression, depth: number): boolean {
  if (value.kind === 'mintypmax') return true;
  if (depth > longestChain) return false;
  if (value.kind === 'name') {
    const meant = specparams(draft).get(value.name);
    return meant !== undefined && variesByCorner(draft, meant, depth + 1);
  }
  return operandsOf(value).some((operand) => variesByCorner(draft, operand, depth + 1));
}

function operandsOf(value: Expression): readonly Expression[] {
  if (value.kind === 'unary') return [value.operand];
  if (value.kind === 'binary') return [value.left, value.right];
  return value.kind === 'conditional' ? [value.condition, value.then, value.else] : [];
}

/** The expression with one of every min:typ:max in its place. */
function atCorner(draft: ModuleDraft, value: Expression, corner: Corner, depth: number): Expression {
  if (depth > longestChain) return value;
  const inner = (operand: Expression) => atCorner(draft, operand, corner, depth + 1);
  switch (value.kind) {
    case 'mintypmax':
      return inner(value[corner]);
    case 'name': {
      const meant = specparams(draft).get(value.name);
      return meant === undefined || !variesByCorner(draft, meant, depth) ? value : inner(meant);
    }
    case 'unary':
      return { ...value, operand: inner(value.operand) };
    case 'binary':
      return { ...value, left: inner(value.left), right: inner(value.right) };
    case 'conditional':
      return { ...value, condition: inner(value.condition), then: inner(value.then), else: inner(value.else) };
    default:
      return value;
  }
}

const known = new WeakMap<readonly Item[], ReadonlyMap<string, Expression>>();

/** Nothing overrides them, so the text is their value. */
function specparams({ table }: ModuleDraft): ReadonlyMap<string, Expression> {
  const found = known.get(table.items);
  if (found !== undefined) return found;
  const values = new Map<string, Expression>();
  for (const item of table.items) {
    if (item.kind !== 'parameter' || !item.local) continue;
    for (const { name, value } of item.declarators) if (value !== null) values.set(name.name, value);
  }
  known.set(table.items, values);
  return values;
}

/** Null where there are not 1, 2, 3, 6 or 12. */
export function twelveDelays(listed: readonly DelayTriple[]): readonly DelayTriple[] | null {
  if (listed.length === 12) return listed;
  const six = sixDelays(listed);
  if (six === null) return null;
  const [rise, fall, zeroToZ, zToOne, oneToZ, zToZero] = six;
  return [
    ...six,
    smaller(zeroToZ, rise),
    larger(zToOne, rise),
    smaller(oneToZ, fall),
    larger(fall, zToZero),
    larger(oneToZ, zeroToZ),
    smaller(zToOne, zToZero),
  ];
}

function sixDelays(listed: readonly DelayTriple[]): readonly DelayTriple[] | null {
  const [first, second, third] = listed;
  switch (listed.length) {
    case 1:
      return [first, first, first, first, first, first];
    case 2:
      return [first, second, first, first, second, second];
    case 3:
      return [first, second, third, first, third, second];
    case 6:
      return listed;
    default:
      return null;
  }
}

function larger(left: DelayTriple, right: DelayTriple): DelayTriple {
  return {
    min: Math.max(left.min, right.min),
    typ: Math.max(left.typ, right.typ),
    max: Math.max(left.max, right.max),
  };
}
