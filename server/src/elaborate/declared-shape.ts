// Width, range and sign of a declaration (IEEE 1364-2005 4.3, 4.8). Null with a complaint where the range is not a
// constant or passes the limit of widths.

import type { At, NetType, TypeName, TypeTable, VariableType } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import { constantInteger } from './expression-type';
import type { SignalShape } from './local-signal';
import { sayAmbiguous } from './references';
import { lookUp } from './scope';
import type { TypeForm } from './type-form';

/** Width and sign of the types that have them built in; the sign where nothing else is written. */
const fixedTypes: Readonly<Partial<Record<VariableType, { readonly width: number; readonly signed: boolean }>>> = {
  integer: { width: 32, signed: true },
  int: { width: 32, signed: true },
  time: { width: 64, signed: false },
  byte: { width: 8, signed: true },
  shortint: { width: 16, signed: true },
  longint: { width: 64, signed: true },
  genvar: { width: 32, signed: true },
};

export function variableShape(
  context: ExpressionContext,
  variable: VariableType,
  type: TypeTable,
  at: At,
): SignalShape | null {
  if (type.named !== undefined) return namedShape(context, 'variable', type.named, type);
  if (variable === 'real') return refused(context, at, 'real variable');
  const fixed = fixedTypes[variable];
  if (fixed === undefined) return shapeOf(context, 'variable', variable, type);
  const { width, signed } = fixed;
  return { kind: 'variable', type: variable, width, msb: width - 1, lsb: 0, scalar: false, signed };
}

export function netShape(context: ExpressionContext, net: NetType, type: TypeTable): SignalShape | null {
  if (type.named !== undefined) {
    const shape = namedShape(context, 'net', type.named, type);
    return shape === null ? null : { ...shape, type: net };
  }
  return shapeOf(context, 'net', net, type);
}

/** A type's own shape; a range beside the name makes a vector of a type that is one bit (IEEE 1800-2017 7.4.1). */
function namedShape(
  context: ExpressionContext,
  kind: SignalShape['kind'],
  name: TypeName,
  { ranges }: TypeTable,
): SignalShape | null {
  const form = namedForm(context, name);
  if (form === null) return null;
  if (ranges.length === 0) return { ...form, kind };
  if (!form.scalar || ranges.length > 1) return refused(context, ranges[0].at, 'more than one packed dimension');
  const range = declaredRange(context, ranges[0]);
  return range === null ? null : { ...form, kind, ...range, scalar: false };
}

function namedForm(context: ExpressionContext, { name, scope: from, start, end, unit }: TypeName): TypeForm | null {
  const { log, scope, source } = context;
  const entity = from === null ? lookUp(scope, name.name) : context.scoped(scope, from, name);
  if (entity?.kind === 'type') return entity.form();
  if (entity?.kind === 'hole') return null;
  const place = source.place(unit === undefined ? { start, end } : { start, end, unit });
  if (entity === null) log.add('undeclared-name', { name: name.name }, place);
  else if (entity.kind === 'ambiguous') sayAmbiguous(context, name, entity.packages);
  else log.add('not-a-type', { name: name.name }, place);
  return null;
}

function shapeOf(
  context: ExpressionContext,
  kind: SignalShape['kind'],
  name: string,
  { signed, ranges }: TypeTable,
): SignalShape | null {
  if (ranges.length === 0) return { kind, type: name, width: 1, msb: 0, lsb: 0, scalar: true, signed };
  if (ranges.length > 1) return refused(context, ranges[1].at, 'more than one packed dimension');
  const range = declaredRange(context, ranges[0]);
  return range === null ? null : { kind, type: name, ...range, scalar: false, signed };
}

export interface DeclaredRange {
  readonly msb: number;
  readonly lsb: number;
  readonly width: number;
}

export function declaredRange(
  context: ExpressionContext,
  range: TypeTable['ranges'][number],
  limit: 'width' | 'memoryWords' = 'width',
): DeclaredRange | null {
  const msb = constantInteger(context, range.msb);
  const lsb = constantInteger(context, range.lsb);
  if (msb === null || lsb === null) return null;
  const width = Math.abs(msb - lsb) + 1;
  if (width <= context.limits[limit]) return { msb, lsb, width };
  const args = { limit, value: context.limits[limit], name: context.source.textOf(range.at) } as const;
  context.log.add('limit', args, context.source.place(range.at));
  return null;
}

function refused(context: ExpressionContext, at: At, what: string): null {
  context.log.add('construct', { what }, context.source.place(at));
  return null;
}
