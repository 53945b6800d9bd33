// Width, range and sign of a declaration (IEEE 1364-2005 4.3, 4.8), and what its bits are made up of (IEEE 1800-2017 7.2 to
// 7.4). Null with a complaint where the range is not a constant or passes the limit of widths.

import type { PackedForm, RecordForm, RecordMember } from '../netlist/packed-form';
import type { At, CompositeTable, MemberTable, NetType, TypeName, TypeTable, VariableType } from '../syntax/tables';
import { enumerationOf } from './enum-names';
import type { ExpressionContext } from './expression-context';
import { constantInteger } from './expression-type';
import { type DeclaredRange, elementsOver, formOfShape, shapeOfForm, type SignalShape } from './local-signal';
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
  if (type.inline !== undefined) return inlineShape(context, 'variable', type);
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
  if (type.inline !== undefined) {
    const shape = inlineShape(context, 'net', type);
    return shape === null ? null : { ...shape, type: net };
  }
  return shapeOf(context, 'net', net, type);
}

/** A type's own shape; ranges beside the name make an array of it, of one bit a vector (IEEE 1800-2017 7.4.1). */
function namedShape(
  context: ExpressionContext,
  kind: SignalShape['kind'],
  name: TypeName,
  { ranges }: TypeTable,
): SignalShape | null {
  const form = namedForm(context, name);
  if (form === null) return null;
  const { kind: _, ...shape } = form;
  return overRanges(context, { ...shape, kind }, ranges);
}

function overRanges(context: ExpressionContext, shape: SignalShape, ranges: TypeTable['ranges']): SignalShape | null {
  if (ranges.length === 0) return shape;
  if (shape.dimensions !== undefined) return refused(context, ranges[0].at, 'packed array of an unpacked one');
  const form = arrayOver(context, formOfShape(shape), ranges);
  return form === null ? null : shapeOfForm(shape.kind, shape.type, form);
}

/** `ranges`: outermost first. One over single bits makes a vector. */
function arrayOver(context: ExpressionContext, element: PackedForm, ranges: TypeTable['ranges']): PackedForm | null {
  let form = element;
  for (const table of [...ranges].reverse()) {
    const range = declaredRange(context, table);
    if (range === null) return null;
    const width = range.width * form.width;
    if (width > context.limits.width) return pastWidth(context, table.at);
    const { msb, lsb } = range;
    const isBit = form.kind === 'vector' && form.scalar && form.names === undefined;
    form = isBit
      ? { kind: 'vector', width, msb, lsb, scalar: false, signed: form.signed }
      : { kind: 'array', width, msb, lsb, signed: false, element: form };
  }
  return form;
}

function inlineShape(context: ExpressionContext, kind: SignalShape['kind'], type: TypeTable): SignalShape | null {
  const { inline, ranges, signed } = type;
  if (inline === undefined) return null;
  if (inline.kind === 'composite') {
    const composite = compositeForm(context, inline, signed);
    return composite === null ? null : overRanges(context, shapeOfForm(kind, composite.type, composite.form), ranges);
  }
  const { variable, type: base } = inline.base ?? intBase;
  const shape = variableShape(context, variable ?? 'logic', base, inline.at);
  return shape === null ? null : overRanges(context, { ...shape, kind, names: enumerationOf(context, inline) }, ranges);
}

/** 6.19: an enumeration that states no base is an int. */
export const intBase = { variable: 'int', type: { signed: true, ranges: [] } } as const;

/** `type`: bit where all members hold two values only, else logic. */
function compositeForm(
  context: ExpressionContext,
  { at, members, packed, what }: CompositeTable,
  signed: boolean,
): { readonly form: RecordForm; readonly type: string } | null {
  if (what === 'union' && !packed) return refused(context, at, 'unpacked union');
  const known: RecordMember[] = [];
  for (const member of members) {
    const form = memberForm(context, member, packed);
    if (form === null) return null;
    known.push({ name: member.name.name, low: 0, ...form });
  }
  const isUnion = what === 'union';
  const width = isUnion
    ? Math.max(...known.map(({ form }) => form.width))
    : known.reduce((sum, { form }) => sum + form.width, 0);
  if (known.length === 0) return refused(context, at, `${what} without members`);
  if (width > context.limits.width) return pastWidth(context, at);
  if (isUnion && known.some(({ form }) => form.width !== width))
    context.log.add('construct', { what: 'packed union of members of different widths' }, context.source.place(at));
  const type = known.every((member) => twoState.has(member.type)) ? 'bit' : 'logic';
  return { form: { kind: 'record', width, signed, isUnion, members: isUnion ? known : placed(known, width) }, type };
}

/** One behind the other, the first one on top. */
function placed(members: readonly RecordMember[], width: number): readonly RecordMember[] {
  let above = width;
  return members.map((member) => {
    above -= member.form.width;
    return { ...member, low: above };
  });
}

/** An array of an unpacked structure is kept as parts of one value: nothing in it can be addressed but by its indices. */
function memberForm(
  context: ExpressionContext,
  { dimensions, name, start, end, type, variable }: MemberTable,
  packed: boolean,
): Pick<RecordMember, 'form' | 'type'> | null {
  const shape = variableShape(context, variable ?? 'logic', type, { start, end });
  if (shape === null) return null;
  if (packed && (dimensions.length > 0 || shape.dimensions !== undefined))
    return refused(context, name, 'unpacked array in a packed structure');
  const own = (shape.dimensions ?? []).reduceRight(elementsOver, formOfShape(shape));
  const form = dimensions.length === 0 ? own : arrayOver(context, own, dimensions);
  return form === null ? null : { form, type: shape.type };
}

const twoState: ReadonlySet<string> = new Set(['bit', 'int', 'byte', 'shortint', 'longint']);

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
  if (ranges.length > 1) {
    const form = arrayOver(context, { kind: 'vector', width: 1, msb: 0, lsb: 0, scalar: true, signed: false }, ranges);
    return form === null ? null : { ...shapeOfForm(kind, name, form), signed };
  }
  const range = declaredRange(context, ranges[0]);
  return range === null ? null : { kind, type: name, ...range, scalar: false, signed };
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

function pastWidth(context: ExpressionContext, at: At): null {
  const name = context.source.textOf(at).slice(0, 60);
  context.log.add('limit', { limit: 'width', value: context.limits.width, name }, context.source.place(at));
  return null;
}

function refused(context: ExpressionContext, at: At, what: string): null {
  context.log.add('construct', { what }, context.source.place(at));
  return null;
}
