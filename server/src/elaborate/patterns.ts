// Assignment patterns (IEEE 1800-2017 10.9): which value each part of a structure or an array gets, by position, by name or
// index, by its type, or by default, which goes down into parts that have parts of their own. What does not fit is said.

import { type PackedForm, partOfIndex } from '../netlist/packed-form';
import type { At, Expression, PatternEntry } from '../syntax/tables';
import { typeFormMeant } from './casts';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { constantInteger, selectWidth } from './expression-type';
import { formOfShape } from './local-signal';
import { isReference, packedPart, resolveReference, type ValueReference } from './references';

export type Pattern = Extract<Expression, { kind: 'pattern' }>;

/** Whether a value can only be told by what it is assigned to. */
export function needsForm(value: Expression): boolean {
  if (value.kind === 'pattern') return value.type === null;
  return value.kind === 'conditional' && (needsForm(value.then) || needsForm(value.else));
}

/** What a target is made up of; null where it is no one name. */
export function formMeant(context: ExpressionContext, target: Expression): PackedForm | null {
  const reference = isReference(target) ? resolveReference(context, target) : null;
  if (reference === null || reference.kind === 'hole') return null;
  const form = packedPart(reference) ?? plainForm(reference);
  const { select } = reference;
  if (select === null || form === null) return form;
  if (select.kind === 'index') return oneBit;
  const count = selectWidth(context, select);
  if (count === null) return null;
  const element = form.kind === 'array' ? form.element : oneBit;
  return { kind: 'array', width: count * element.width, msb: count - 1, lsb: 0, signed: false, element };
}

function plainForm(reference: ValueReference): PackedForm | null {
  switch (reference.kind) {
    case 'signal':
      return formOfShape(reference.signal.shape);
    case 'below':
      return formOfShape(reference.shape);
    case 'word':
      return formOfShape(reference.array.shape);
    default:
      return null;
  }
}

const oneBit: PackedForm = { kind: 'vector', width: 1, msb: 0, lsb: 0, scalar: true, signed: false };

/** What stands before the pattern; undefined: nothing does. Null: it is no type, or one that is not known. */
export function formBefore(context: ExpressionContext, { type }: Pattern): PackedForm | null | undefined {
  if (type === null) return undefined;
  const form = typeFormMeant(context, type);
  return form === null ? null : formOfShape(form);
}

/** One part of the whole with its value, the most significant first; a number: the complaint that says what is wrong. */
export interface PatternPart {
  readonly form: PackedForm;
  readonly value: Expression;
}

interface Slot {
  readonly form: PackedForm;
  /** Of a member. */
  readonly name: string | null;
  readonly type: string;
}

export function patternParts(
  context: ExpressionContext,
  pattern: Pattern,
  form: PackedForm,
): readonly PatternPart[] | number {
  const slots = slotsOf(form);
  const { entries } = pattern;
  if (slots === null)
    return misfit(context, pattern.at, `a pattern for ${form.kind === 'record' ? 'a union' : 'this'}`);
  if (entries.some(({ key }) => key !== null)) return byKeys(context, pattern, form, slots);
  const values = repeated(context, pattern);
  if (values === null) return -1;
  if (values.length === slots.length) return slots.map((slot, index) => ({ form: slot.form, value: values[index] }));
  const args = { given: values.length, parts: slots.length };
  return context.log.add('pattern-count', args, context.source.place(pattern.at));
}

function misfit({ log, source }: ExpressionContext, at: At, what: string): number {
  return log.add('construct', { what }, source.place(at));
}

/** Null for what has no parts of its own. */
function slotsOf(form: PackedForm): readonly Slot[] | null {
  if (form.kind === 'record')
    return form.isUnion ? null : form.members.map(({ name, type, form: own }) => ({ form: own, name, type }));
  const element = form.kind === 'array' ? form.element : oneBit;
  return Array.from({ length: form.width / element.width }, () => ({ form: element, name: null, type: '' }));
}

/** '{count{…}}: a count that is not constant has been said. */
function repeated(context: ExpressionContext, { count, entries }: Pattern): readonly Expression[] | null {
  const once = entries.map(({ value }) => value);
  if (count === null) return once;
  const times = constantInteger(context, count);
  if (times === null || times < 0 || times * once.length > context.limits.width) return null;
  return Array.from({ length: times }, () => once).flat();
}

/** A name or an index before a type, a type before the default (10.9.1, 10.9.2). */
function byKeys(
  context: ExpressionContext,
  { at, entries }: Pattern,
  form: PackedForm,
  slots: readonly Slot[],
): readonly PatternPart[] | number {
  const values: (Expression | undefined)[] = slots.map(() => undefined);
  const deep: (Expression | undefined)[] = slots.map(() => undefined);
  for (const entry of entries) {
    const found = slotsMeant(context, entry, form, slots);
    if (typeof found === 'number') return found;
    for (const index of found.exact) values[index] = entry.value;
    for (const index of found.byType) values[index] ??= entry.value;
    if (entry.key === 'default') for (const index of slots.keys()) deep[index] = entry.value;
  }
  const parts: PatternPart[] = [];
  for (const [index, slot] of slots.entries()) {
    const [value, fallback] = [values[index], deep[index]];
    if (value !== undefined) parts.push({ form: slot.form, value });
    else if (fallback !== undefined) parts.push({ form: slot.form, value: inEveryPart(slot.form, fallback) });
    else return context.log.add('pattern-missing', { name: slot.name ?? `[${index}]` }, context.source.place(at));
  }
  return parts;
}

interface Meant {
  readonly exact: readonly number[];
  readonly byType: readonly number[];
}

function slotsMeant(
  context: ExpressionContext,
  { key }: PatternEntry,
  form: PackedForm,
  slots: readonly Slot[],
): Meant | number {
  if (key === 'default') return { exact: [], byType: [] };
  if (key === null) return -1;
  if (form.kind === 'record') {
    const name = key.kind === 'name' ? key.name : '';
    const own = slots.findIndex((slot) => slot.name === name);
    if (own >= 0) return { exact: [own], byType: [] };
    const meant = key.kind === 'name' || key.kind === 'scoped' ? typeFormMeant(context, key) : null;
    const typed = [...slots.keys()].filter((index) => slots[index].type === name && name !== '');
    const same = meant === null ? [] : [...slots.keys()].filter((index) => slots[index].form.width === meant.width);
    if (typed.length > 0 || meant !== null) return { exact: [], byType: typed.length > 0 ? typed : same };
  } else {
    const value = context.constant(key);
    const number = value === null ? null : integerOf(value);
    const part = number === null ? -1 : partOfIndex(form, number);
    if (part >= 0 && part < slots.length) return { exact: [slots.length - 1 - part], byType: [] };
  }
  const { at } = key;
  return context.log.add('pattern-key', { name: context.source.textOf(at) }, context.source.place(at));
}

/** A default means every part of a part (10.9.2). */
function inEveryPart(form: PackedForm, value: Expression): Expression {
  if (form.kind === 'vector' || (form.kind === 'record' && form.isUnion) || value.kind === 'pattern') return value;
  return { kind: 'pattern', at: value.at, type: null, count: null, entries: [{ key: 'default', value }] };
}
