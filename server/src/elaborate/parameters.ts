// Parameters and local parameters: worked out when first asked for, overrides first, then converted to the type of the
// declaration (IEEE 1364-2005 4.10.1). A parameter that needs itself is said and unknown.

import { allX, type Bits } from '../netlist/four-state';
import type { At, Declarator, Item } from '../syntax/tables';
import { type ConstantValue, numberOf, toBits } from './constant-value';
import { constantBits, contextIn } from './constants';
import { variableShape } from './declared-shape';
import type { SignalShape } from './local-signal';
import type { ModuleDraft } from './module-draft';
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
    const overridden = item.local || scope !== draft.root ? undefined : draft.overrides.get(name);
    const entity = createParameter(draft, scope, item, declarator, overridden);
    scope.names.set(name, entity);
    if (scope === draft.root) draft.parameters.push(entity);
  }
}

/** The value of a loop generate construct's variable, inside one of its blocks (12.4.1). */
export function fixedParameter(name: string, at: At, value: ConstantValue): ParameterEntity {
  return { kind: 'parameter', name, at, local: true, range: () => ({ msb: 31, lsb: 0 }), value: () => value };
}

function createParameter(
  draft: ModuleDraft,
  scope: Scope,
  item: ParameterItem,
  declarator: Declarator,
  overridden: ConstantValue | undefined,
): ParameterEntity {
  let state: 'new' | 'running' | 'done' = 'new';
  let value: ConstantValue = unknownValue;
  const at = declarator.name;
  const { name } = at;
  return {
    kind: 'parameter',
    name,
    at,
    local: item.local,
    range() {
      const shape = declaredShape(draft, scope, item);
      return shape ?? { msb: (value.kind === 'bits' ? value.bits.width : 32) - 1, lsb: 0 };
    },
    value() {
      if (state === 'done') return value;
      if (state === 'running' || draft.running.count >= longestChain) {
        draft.log.add('cyclic-parameter', { name }, draft.source.place(at));
        return unknownValue;
      }
      state = 'running';
      draft.running.count++;
      value = convertedValue(draft, scope, item, declarator, overridden);
      draft.running.count--;
      state = 'done';
      return value;
    },
  };
}

const unknownValue: ConstantValue = { kind: 'bits', bits: allX(32), signed: true };

/** Without type and range the value's own type; with a range alone unsigned; with `signed` alone the value's width. */
function convertedValue(
  draft: ModuleDraft,
  scope: Scope,
  item: ParameterItem,
  declarator: Declarator,
  overridden: ConstantValue | undefined,
): ConstantValue {
  const shape = declaredShape(draft, scope, item);
  if (shape !== null) {
    const { width, signed } = shape;
    const bits = overridden === undefined ? declaredBits(draft, scope, declarator, width) : toBits(overridden, width);
    return { kind: 'bits', bits, signed };
  }
  const value = overridden ?? declaredValue(draft, scope, declarator);
  if (item.variable === 'real') return { kind: 'real', value: numberOf(value) ?? 0 };
  return item.type.signed && value.kind === 'bits' ? { ...value, signed: true } : value;
}

/** Null where the declaration leaves width or range to the value. */
function declaredShape(draft: ModuleDraft, scope: Scope, { variable, type, at }: ParameterItem): SignalShape | null {
  if (variable === 'real' || (variable === null && type.ranges.length === 0)) return null;
  return variableShape(contextIn(draft, scope), variable ?? 'reg', type, at);
}

/** A range makes an assignment of the declaration: its width is the context of the value (5.4). */
function declaredBits(draft: ModuleDraft, scope: Scope, declarator: Declarator, width: number): Bits {
  const { value } = declarator;
  const bits = value === null ? null : constantBits(contextIn(draft, scope), value, width);
  if (bits === null) sayNotConstant(draft, declarator);
  return bits ?? allX(width);
}

function declaredValue(draft: ModuleDraft, scope: Scope, declarator: Declarator): ConstantValue {
  const { value } = declarator;
  const constant = value === null ? null : contextIn(draft, scope).constant(value);
  if (constant === null) sayNotConstant(draft, declarator);
  return constant ?? unknownValue;
}

function sayNotConstant({ log, source }: ModuleDraft, { name, value }: Declarator): void {
  if (value?.kind === 'hole') return;
  const what = value === null ? name.name : source.textOf(value.at);
  log.add('not-constant', { what }, source.place(value?.at ?? name));
}
