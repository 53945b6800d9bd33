// What a name in an expression refers to, hierarchical names included (IEEE 1364-2005 12.5): a signal, a signal of an
// instance below, or a parameter, the part of it that members and indices lead to, and at most one select behind that. What
// cannot be found is a complaint and a hole.

import type { Enumeration, PackedForm } from '../netlist/packed-form';
import type { At, Expression } from '../syntax/tables';
import type { SignalBelow } from './algebra';
import type { ExpressionContext, InstanceBelow } from './expression-context';
import type { LocalSignal, SignalShape } from './local-signal';
import { integerOf } from './constant-value';
import { type View, viewOfElement, viewOfMember } from './packed-views';
import {
  type ArrayEntity,
  createScope,
  type Entity,
  type InterfaceEntity,
  lookUp,
  type ParameterEntity,
  type Scope,
} from './scope';
import { rowOf, wholeOf, type WholeValue } from './whole-values';

export type Select = Extract<Expression, { kind: 'index' | 'range' }>;

/** What is named, the part of it that members and indices lead to (null: all of it), and a select of that. */
export interface Chosen {
  readonly view: View | null;
  readonly select: Select | null;
}

export type Reference = ValueReference | { readonly kind: 'hole'; readonly complaint: number };

export type ValueReference =
  | ({ readonly kind: 'signal'; readonly signal: LocalSignal } & Chosen)
  | ({ readonly kind: 'below'; readonly below: SignalBelow; readonly shape: SignalShape } & Chosen)
  | ({ readonly kind: 'parameter'; readonly parameter: ParameterEntity } & Chosen)
  /** A word of an array, one index per dimension, at least one of which may vary or lies outside. */
  | ({ readonly kind: 'word'; readonly array: ArrayEntity; readonly indices: readonly Expression[] } & Chosen)
  /** A structure or an array as one value; `path`: the instances it stands below. */
  | ({ readonly kind: 'whole'; readonly whole: WholeValue; readonly path: readonly number[] } & Chosen);

/** Of what `reference` names, before its own select; null for a plain vector. */
export function packedPart(reference: ValueReference): PackedForm | null {
  return reference.view?.form ?? packedOf(reference);
}

function packedOf(reference: ValueReference): PackedForm | null {
  switch (reference.kind) {
    case 'signal':
      return reference.signal.shape.packed ?? null;
    case 'below':
      return reference.shape.packed ?? null;
    case 'parameter':
      return reference.parameter.form?.() ?? null;
    case 'word':
      return reference.array.shape.packed ?? null;
    case 'whole':
      return reference.whole.form;
  }
}

/** The names of its values, where it is of an enumeration. */
export function namesOf(reference: ValueReference): Enumeration | null {
  if (reference.select !== null) return null;
  const { view } = reference;
  if (view !== null) return view.form.kind === 'vector' ? (view.form.names ?? null) : null;
  if (reference.kind === 'signal') return reference.signal.shape.names ?? null;
  if (reference.kind === 'below') return reference.shape.names ?? null;
  return reference.kind === 'word' ? (reference.array.shape.names ?? null) : null;
}

export type ReferenceExpression = Extract<Expression, { kind: 'name' | 'member' | 'scoped' | 'index' | 'range' }>;

export function isReference(expression: Expression): expression is ReferenceExpression {
  const { kind } = expression;
  return kind === 'name' || kind === 'member' || kind === 'scoped' || kind === 'index' || kind === 'range';
}

export function resolveReference(context: ExpressionContext, expression: ReferenceExpression): Reference {
  const found = find(context, expression);
  if (found.kind === 'found') return valueReference(context, expression, found);
  if (found.kind === 'lost') return { kind: 'hole', complaint: found.complaint };
  if (found.kind === 'part') return wordReference(context, expression, found);
  const base = resolveReference(context, found.base);
  if (base.kind === 'hole') return base;
  if (base.select !== null) return unsupported(context, expression, 'select of a select');
  return found.kind === 'select' ? selected(context, base, found.select) : memberOf(context, base, found.member);
}

function selected(context: ExpressionContext, base: ValueReference, select: Select): Reference {
  const form = packedPart(base);
  if (form?.kind !== 'array' || select.kind === 'range') return { ...base, select };
  return { ...base, view: viewOfElement(context, base.view?.steps ?? [], form, select.index) };
}

function memberOf(context: ExpressionContext, base: ValueReference, expression: Member): Reference {
  const form = packedPart(base);
  const { name } = expression.name;
  const member = form?.kind === 'record' ? form.members.find((entry) => entry.name === name) : undefined;
  if (member === undefined) return { kind: 'hole', complaint: undeclared(context, expression).complaint };
  return { ...base, view: viewOfMember(base.view?.steps ?? [], member.low, member.form) };
}

/** What a name means, values or not, and the instances it stands below; a number: it means nothing, by that complaint. */
export function entityOf(
  context: ExpressionContext,
  expression: ReferenceExpression,
): { readonly entity: Entity; readonly path: readonly number[]; readonly inside: Inside } | number {
  const found = find(context, expression);
  if (found.kind === 'found') return found;
  return found.kind === 'lost' ? found.complaint : undeclared(context, expression).complaint;
}

type Found =
  /** An entity, and the instances it stands below. */
  | { readonly kind: 'found'; readonly entity: Entity; readonly path: readonly number[]; readonly inside: Inside }
  | { readonly kind: 'select'; readonly base: ReferenceExpression; readonly select: Select }
  /** Of a value. */
  | { readonly kind: 'member'; readonly base: ReferenceExpression; readonly member: Member }
  /** An array with as many indices as have been met so far. */
  | { readonly kind: 'part'; readonly array: ArrayEntity; readonly indices: readonly Expression[]; readonly path: Path }
  | { readonly kind: 'lost'; readonly complaint: number };

type Path = readonly number[];

type Member = Extract<Expression, { kind: 'member' }>;

/** The module that `path` has led to. */
type Inside = Pick<InstanceBelow, 'below'> & Partial<Pick<InstanceBelow, 'unit'>>;

function find(context: ExpressionContext, expression: ReferenceExpression): Found {
  switch (expression.kind) {
    case 'name':
      return findName(context, expression);
    case 'member':
      return findMember(context, expression);
    case 'index':
    case 'range':
      return findSelected(context, expression);
    case 'scoped':
      return entityFound(context, expression, context.scoped(context.scope, expression.scope, expression.name));
  }
}

function findName(context: ExpressionContext, { name, at }: Extract<Expression, { kind: 'name' }>): Found {
  if (name === '$root') return { kind: 'found', entity: rootOf(context, at), path: [], inside: context };
  const entity = lookUp(context.scope, name) ?? moduleItself(context, name, at);
  if (entity !== null) return entityFound(context, { at }, entity);
  return { kind: 'lost', complaint: context.log.add('undeclared-name', { name }, context.source.place(at)) };
}

function entityFound(context: ExpressionContext, { at }: Pick<Expression, 'at'>, entity: Entity): Found {
  if (entity.kind === 'below') return { kind: 'found', entity: entity.entity, path: entity.path, inside: context };
  if (entity.kind !== 'ambiguous') return { kind: 'found', entity, path: [], inside: context };
  return { kind: 'lost', complaint: sayAmbiguous(context, at, entity.packages) };
}

export function sayAmbiguous({ log, source }: ExpressionContext, at: At, packages: readonly string[]): number {
  const args = { name: source.textOf(at), packages: packages.join(', ') };
  return log.add('ambiguous-import', args, source.place(at));
}

/** A hierarchical name may begin with the name of the module it stands in (12.5). */
function moduleItself(context: ExpressionContext, name: string, at: At): Entity | null {
  if (name !== context.moduleName) return null;
  let scope: Scope = context.scope;
  while (scope.parent !== null) scope = scope.parent;
  return { kind: 'block', at, scope };
}

/** `$root.top.…`: followed where the module is the one named, which then is the top (IEEE 1800-2017 23.3.1). */
function rootOf(context: ExpressionContext, at: At): Entity {
  const scope = createScope(null, null);
  const own = moduleItself(context, context.moduleName, at);
  if (own !== null) scope.names.set(context.moduleName, own);
  return { kind: 'block', at, scope };
}

function findMember(context: ExpressionContext, expression: Extract<Expression, { kind: 'member' }>): Found {
  if (!isReference(expression.base)) return lost(context, expression, 'member of an expression');
  const base = find(context, expression.base);
  if (base.kind === 'lost') return base;
  if (base.kind !== 'found') return { kind: 'member', base: expression.base, member: expression };
  const { entity, path, inside } = base;
  if (entity.kind === 'hole') return base;
  if (entity.kind === 'block') return findIn(context, expression, entity.scope, { path, inside });
  if (entity.kind === 'interface') return findInInterface(context, expression, entity, { path, inside });
  if (entity.kind === 'instance') {
    const below = inside.below(entity.child);
    // That its module is not read has been said.
    if (below === null) return { kind: 'lost', complaint: -1 };
    return findIn(context, expression, below.scope, { path: [...path, entity.child], inside: below });
  }
  if (entity.kind === 'record') {
    const member = entity.members.get(expression.name.name);
    return member === undefined ? undeclared(context, expression) : { kind: 'found', entity: member, path, inside };
  }
  const isValue = entity.kind === 'signal' || entity.kind === 'parameter';
  return isValue ? { kind: 'member', base: expression.base, member: expression } : undeclared(context, expression);
}

/** Of what is more than a constant, only the names that its modport holds (IEEE 1800-2017 25.5). */
function findInInterface(
  context: ExpressionContext,
  expression: Extract<Expression, { kind: 'member' }>,
  { modport, scope }: InterfaceEntity,
  place: { path: readonly number[]; inside: Inside },
): Found {
  const { name } = expression;
  const member = modport?.members.find((entry) => entry.name.name === name.name);
  const own = scope.names.get(name.name);
  const isFree = modport === null || own === undefined || own.kind === 'parameter';
  if (member !== undefined && member.expression !== null) {
    const { expression: meant } = member;
    const renamed = meant.kind === 'name' ? scope.names.get(meant.name) : undefined;
    if (renamed === undefined) return lost(context, expression, 'modport expression of this form');
    return { kind: 'found', entity: renamed, ...place };
  }
  // That the interface has no such signal has been said of the modport.
  if (member !== undefined && own === undefined) return { kind: 'lost', complaint: -1 };
  if (isFree || member !== undefined) return findIn(context, expression, scope, place);
  const args = { modport: modport.name.name, name: name.name };
  return { kind: 'lost', complaint: context.log.add('not-in-modport', args, context.source.place(name)) };
}

function findIn(
  context: ExpressionContext,
  expression: Extract<Expression, { kind: 'member' }>,
  scope: Scope,
  place: { path: readonly number[]; inside: Inside },
): Found {
  const entity = scope.names.get(expression.name.name);
  if (entity !== undefined) return { kind: 'found', entity, ...place };
  return undeclared(context, expression);
}

/** An index chooses a generate block or an instance, or selects from a value. */
function findSelected(context: ExpressionContext, expression: Select): Found {
  if (!isReference(expression.base)) return lost(context, expression, 'select of an expression');
  const base = find(context, expression.base);
  if (base.kind === 'lost') return base;
  if (base.kind === 'found' && elements.has(base.entity.kind)) {
    return findElement(context, expression, base);
  }
  if (base.kind === 'found' && base.entity.kind === 'hole') return base;
  const part = arrayPart(base);
  if (part !== null && part.indices.length < part.array.dimensions.length && expression.kind === 'index') {
    return { ...part, indices: [...part.indices, expression.index] };
  }
  return { kind: 'select', base: expression.base, select: expression };
}

const elements: ReadonlySet<Entity['kind']> = new Set(['blocks', 'instances', 'interfaces']);

function arrayPart(found: Found): Extract<Found, { kind: 'part' }> | null {
  if (found.kind === 'part') return found;
  if (found.kind !== 'found' || found.entity.kind !== 'array') return null;
  return { kind: 'part', array: found.entity, indices: [], path: found.path };
}

/** Constant indices name a signal of its own. */
function wordReference(
  context: ExpressionContext,
  expression: ReferenceExpression,
  { array, indices, path }: Extract<Found, { kind: 'part' }>,
): Reference {
  const { words, memory } = array;
  if (words === null && memory === null) return { kind: 'hole', complaint: path.length === 0 ? array.complaint : -1 };
  const offsets = constantOffsets(context, array, indices);
  if (indices.length < array.dimensions.length) {
    const whole = offsets === null ? null : rowOf(array, offsets);
    if (memory !== null) return unsupported(context, expression, 'row of a memory');
    if (whole === null) return unsupported(context, expression, 'row of an array at an index that varies');
    return { kind: 'whole', whole, path, view: null, select: null };
  }
  const word = offsets === null ? undefined : words?.[positionOf(array, offsets)];
  if (word !== undefined) return signalReference(word, path);
  if (path.length > 0) return unsupported(context, expression, otherWord(memory));
  return { kind: 'word', array, indices, view: null, select: null };
}

function otherWord(memory: ArrayEntity['memory']): string {
  const where = memory === null ? ' at an index that varies' : '';
  return `word of an array in another module${where}`;
}

/** Counted from the first of each dimension; null where an index varies or lies outside. */
function constantOffsets(
  context: ExpressionContext,
  { dimensions }: ArrayEntity,
  indices: readonly Expression[],
): readonly number[] | null {
  const offsets: number[] = [];
  for (const [level, expression] of indices.entries()) {
    const { first, size } = dimensions[level];
    const value = context.constant(expression);
    const offset = ((value === null ? null : integerOf(value)) ?? Number.NaN) - first;
    if (!(offset >= 0 && offset < size)) return null;
    offsets.push(offset);
  }
  return offsets;
}

function positionOf({ dimensions }: ArrayEntity, offsets: readonly number[]): number {
  return offsets.reduce((position, offset, level) => position * dimensions[level].size + offset, 0);
}

function findElement(context: ExpressionContext, expression: Select, base: Extract<Found, { kind: 'found' }>): Found {
  if (expression.kind === 'range') return lost(context, expression, 'part-select of blocks');
  const value = context.constant(expression.index);
  const index = value === null ? null : integerOf(value);
  if (index === null) return lost(context, expression, 'block chosen by a value that varies');
  const entity = element(base.entity, index);
  if (entity !== null) return { ...base, entity };
  return undeclared(context, expression);
}

function element(entity: Entity, index: number): Entity | null {
  if (entity.kind === 'instances' || entity.kind === 'interfaces') return entity.members.get(index) ?? null;
  if (entity.kind !== 'blocks') return null;
  const scope = entity.scopes.get(index);
  return scope === undefined ? null : { kind: 'block', at: entity.at, scope };
}

function valueReference(
  context: ExpressionContext,
  expression: ReferenceExpression,
  { entity, path }: Extract<Found, { kind: 'found' }>,
): Reference {
  switch (entity.kind) {
    case 'signal':
      return signalReference(entity, path);
    case 'parameter':
      return parameterReference(entity, path);
    case 'record':
      return { kind: 'whole', whole: entity, path, view: null, select: null };
    case 'array': {
      const whole = wholeOf(entity);
      if (whole !== null) return { kind: 'whole', whole, path, view: null, select: null };
      if (entity.memory !== null) return unsupported(context, expression, 'memory as a whole');
      return { kind: 'hole', complaint: path.length === 0 ? entity.complaint : -1 };
    }
    case 'hole':
      return { kind: 'hole', complaint: path.length === 0 ? entity.complaint : -1 };
    default:
      return { kind: 'hole', complaint: notAValue(context, expression) };
  }
}

/** One whose value is not known, which has been said, makes what it stands in unknown. */
function parameterReference(parameter: ParameterEntity, path: Path): Reference {
  const lost = parameter.lost();
  if (lost === null) return { kind: 'parameter', parameter, view: null, select: null };
  return { kind: 'hole', complaint: path.length === 0 ? lost : -1 };
}

function signalReference(signal: LocalSignal, path: Path): Reference {
  if (path.length === 0) return { kind: 'signal', signal, view: null, select: null };
  const { shape, index } = signal;
  return { kind: 'below', below: { path, signal: index, width: shape.width }, shape, view: null, select: null };
}

export function notAValue(context: ExpressionContext, { at }: Expression): number {
  const name = context.source.textOf(at);
  return context.log.add('not-a-value', { name }, context.source.place(at));
}

function undeclared(context: ExpressionContext, expression: Expression): Extract<Found, { kind: 'lost' }> {
  const name = context.source.textOf(expression.at);
  return { kind: 'lost', complaint: context.log.add('undeclared-name', { name }, context.source.place(expression.at)) };
}

function lost(context: ExpressionContext, expression: Expression, what: string): Found {
  return { kind: 'lost', complaint: context.log.add('construct', { what }, context.source.place(expression.at)) };
}

function unsupported(context: ExpressionContext, expression: Expression, what: string): Reference {
  return { kind: 'hole', complaint: context.log.add('construct', { what }, context.source.place(expression.at)) };
}
