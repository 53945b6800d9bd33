// `type'(x)` and `size'(x)` (IEEE 1800-2017 6.24.1): the value as if it were assigned to a variable of that type, or of that
// size with the sign that it has. Reading gives both as a call of `castCall`, a type's keyword as a name.

import type { Expression } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import { lookUp } from './scope';
import type { TypeForm } from './type-form';

/** No text can call it so. */
export const castCall = "$'";

export interface CastType {
  readonly width: number;
  /** Null: that of the value. */
  readonly signed: boolean | null;
}

/** Of types with a keyword. */
const keywordTypes: ReadonlyMap<string, CastType> = new Map([
  ['bit', { width: 1, signed: false }],
  ['logic', { width: 1, signed: false }],
  ['reg', { width: 1, signed: false }],
  ['byte', { width: 8, signed: true }],
  ['shortint', { width: 16, signed: true }],
  ['int', { width: 32, signed: true }],
  ['integer', { width: 32, signed: true }],
  ['longint', { width: 64, signed: true }],
  ['time', { width: 64, signed: false }],
]);

/** A type, or null where the expression names none: then it is a size. */
export function typeMeant(context: ExpressionContext, type: Expression): CastType | null {
  const keyword = type.kind === 'name' ? keywordTypes.get(type.name) : undefined;
  return keyword ?? typeFormMeant(context, type);
}

/** The same for types that have been given a name. */
export function typeFormMeant(context: ExpressionContext, type: Expression): TypeForm | null {
  if (type.kind !== 'name' && type.kind !== 'scoped') return null;
  const entity =
    type.kind === 'name' ? lookUp(context.scope, type.name) : context.scoped(context.scope, type.scope, type.name);
  return entity?.kind === 'type' ? entity.form() : null;
}
