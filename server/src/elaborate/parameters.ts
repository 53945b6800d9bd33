// Parameters and local parameters: worked out when first asked for, overrides first, then converted to the type of the
// declaration (IEEE 1364-2005 4.10.1). A parameter that needs itself is said and unknown.

import { allX, type Bits } from '../netlist/four-state';
import type { PackedForm } from '../netlist/packed-form';
import type { At, Declarator, Item } from '../syntax/tables';
import { type ConstantValue, numberOf, toBits } from './constant-value';
import { constantBits, contextIn } from './constants';
import { declaredRange, variableShape } from './declared-shape';
import { elementsOver, formOfShape, type SignalShape } from './local-signal';
import type { ModuleDraft } from './module-draft';
import { sayNotConstant } from './not-constant';
import type { ParameterEntity, Scope } from './scope';

type ParameterItem = Extract<Item, { kind: 'parameter' }>;

/** Of one module's chain of parameters that need each other; far above what a person writes out of order. */
const longestChain = 200;

export function declareParameters(draft: ModuleDraft, scope: Scope, item: ParameterItem): void {
  for (const declarator of item.declarators) {
    const { name } = declarator.name;
    if (scope.names.has(name)) {
      draft.log.add('declared-twice', { name }, draft.source.place(declarator.name));
      continue;
    }
    const given = item.local ? undefined : scope.overrides?.get(name);
    const overridden = given?.kind === 'type' ? undefined : given;
    const entity = createParameter(draft, scope, item, declarator, overridden);
    scope.names.set(name, entity);
    if (scope === draft.root) draft.parameters.push(entity);
  }
}

/** The value of a loop generate construct's variable, inside one of its blocks (12.4.1). */
export function fixedParameter(name: string, at: At, value: ConstantValue): ParameterEntity {
  return {
    kind: 'parameter',
    name,
    at,
    local: true,
    range: () => ({ msb: 31, lsb: 0 }),
    value: () => value,
    lost: () => null,
  };
}

export function createParameter(
  draft: ModuleDraft,
  scope: Scope,
  item: ParameterItem,
  declarator: Declarator,
  overridden: ConstantValue | undefined,
): ParameterEntity {
  let state: 'new' | 'running' | 'done' = 'new';
  let known: KnownValue = { value: unknownValue, lost: null };
  const at = declarator.name;
  const { name } = at;
  function knownValue(): KnownValue {
    if (state === 'done') return known;
    if (state === 'running' || draft.running.count >= longestChain) {
      return unknownBy(draft.log.add('cyclic-parameter', { name }, draft.source.place(at)));
    }
    state = 'running';
    draft.running.count++;
    known = convertedValue(draft, scope, item, declarator, overridden);
    draft.running.count--;
    state = 'done';
    return known;
  }
  return {
    kind: 'parameter',
    name,
    at,
    local: item.local,
    range() {
      const shape = declaredShape(draft, scope, item);
      const { value } = known;
      return shape ?? { msb: (value.kind === 'bits' ? value.bits.width : 32) - 1, lsb: 0 };
    },
    form: () => {
      const form = declaredForm(draft, scope, item, declarator)?.form ?? null;
      return form?.kind === 'vector' ? null : form;
    },
    value: () => knownValue().value,
    lost: () => knownValue().lost,
  };
}

interface KnownValue {
  readonly value: ConstantValue;
  readonly lost: number | null;
}

const unknownValue: ConstantValue = { kind: 'bits', bits: allX(32), signed: true };

function unknownBy(complaint: number): KnownValue {
  return { value: unknownValue, lost: complaint };
}

/** Without type and range the value's own type; with a range alone unsigned; with `signed` alone the value's width. */
function convertedValue(
  draft: ModuleDraft,
  scope: Scope,
  item: ParameterItem,
  declarator: Declarator,
  overridden: ConstantValue | undefined,
): KnownValue {
  const shape = declaredForm(draft, scope, item, declarator);
  if (shape !== null) {
    const { form, signed } = shape;
    const { width } = form;
    const bits = overridden === undefined ? declaredBits(draft, scope, declarator, form) : toBits(overridden, width);
    if (typeof bits === 'number') return { value: { kind: 'bits', bits: allX(width), signed }, lost: bits };
    return { value: { kind: 'bits', bits, signed }, lost: null };
  }
  const value = overridden ?? declaredValue(draft, scope, declarator);
  if (typeof value === 'number') return unknownBy(value);
  if (item.variable === 'real') return { value: { kind: 'real', value: numberOf(value) ?? 0 }, lost: null };
  return { value: item.type.signed && value.kind === 'bits' ? { ...value, signed: true } : value, lost: null };
}

/** With its unpacked dimensions, an array of constants is one value; null as for `declaredShape`. */
function declaredForm(
  draft: ModuleDraft,
  scope: Scope,
  item: ParameterItem,
  { dimensions }: Declarator,
): { readonly form: PackedForm; readonly signed: boolean } | null {
  const written = declaredShape(draft, scope, item);
  if (written === null && dimensions.length === 0) return null;
  const shape = written ?? scalarInteger;
  const ranges = dimensions.flatMap((table) => declaredRange(contextIn(draft, scope), table, 'memoryWords') ?? []);
  if (ranges.length < dimensions.length) return null;
  const form = [...ranges, ...(shape.dimensions ?? [])].reduceRight(elementsOver, formOfShape(shape));
  return { form, signed: shape.signed };
}

const scalarInteger: SignalShape = {
  kind: 'variable',
  type: 'integer',
  width: 32,
  msb: 31,
  lsb: 0,
  scalar: false,
  signed: true,
};

/** Null where the declaration leaves width or range to the value. */
function declaredShape(draft: ModuleDraft, scope: Scope, { variable, type, at }: ParameterItem): SignalShape | null {
  if (
    variable === 'real' ||
    (variable === null && type.ranges.length === 0 && type.named === undefined && type.inline === undefined)
  )
    return null;
  return variableShape(contextIn(draft, scope), variable ?? 'reg', type, at);
}

/** A range makes an assignment of the declaration: its width is the context of the value (5.4). A number: why not. */
function declaredBits(draft: ModuleDraft, scope: Scope, declarator: Declarator, form: PackedForm): Bits | number {
  const { value } = declarator;
  const bits = value === null ? null : constantBits(contextIn(draft, scope), value, form.width, () => form);
  return bits ?? sayNoValue(draft, scope, declarator);
}

function declaredValue(draft: ModuleDraft, scope: Scope, declarator: Declarator): ConstantValue | number {
  const { value } = declarator;
  const constant = value === null ? null : contextIn(draft, scope).constant(value);
  return constant ?? sayNoValue(draft, scope, declarator);
}

function sayNoValue(draft: ModuleDraft, scope: Scope, { name, value }: Declarator): number {
  if (value !== null) return sayNotConstant(contextIn(draft, scope), value);
  return draft.log.add('not-constant', { what: name.name }, draft.source.place(name));
}
