// Which signals of the module a statement may assign, through the tasks that it calls: for what could not be followed.

import type { Expression, Statement } from '../syntax/tables';
import { assignedMembers, assignedNames, callsIn } from './driven-names';
import type { LocalSignal } from './local-signal';
import { type Entity, lookUp, type Scope } from './scope';

/** In source order, once each; private ones of the statement's own surroundings included. */
export function assignedSignals(scope: Scope, statement: Statement): LocalSignal[] {
  const found = new Set<LocalSignal>();
  const seen = new Set<Statement>([statement]);
  const stack: { readonly scope: Scope; readonly statement: Statement }[] = [{ scope, statement }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    for (const name of assignedNames(top.statement)) {
      const entity = lookUp(top.scope, name);
      for (const signal of signalsOf(entity)) found.add(signal);
    }
    for (const member of assignedMembers(top.statement)) {
      for (const signal of signalsOf(entityAlong(top.scope, member))) found.add(signal);
    }
    for (const { name, callee } of callsIn(top.statement)) {
      const entity = callee === undefined ? lookUp(top.scope, name.name) : entityAlong(top.scope, callee);
      const frame = entity?.kind === 'subroutine' ? entity.frame() : null;
      if (entity?.kind !== 'subroutine' || frame === null || seen.has(entity.item.body)) continue;
      seen.add(entity.item.body);
      stack.push({ scope: frame.scope, statement: entity.item.body });
    }
  }
  return [...found];
}

/** What a name leads to inside this module, through blocks and interfaces; null where it leads out of it. */
export function entityAlong(scope: Scope, expression: Expression): Entity | null {
  if (expression.kind === 'name') return lookUp(scope, expression.name);
  if (expression.kind !== 'member') return null;
  const base = entityAlong(scope, expression.base);
  if (base?.kind === 'record') return base.members.get(expression.name.name) ?? null;
  const isScope = base?.kind === 'block' || base?.kind === 'interface';
  return isScope ? (base.scope.names.get(expression.name.name) ?? null) : null;
}

/** A signal, the members of a structure, or what keeps the words of an array; nothing else can be assigned. */
export function signalsOf(entity: Entity | null): readonly LocalSignal[] {
  if (entity?.kind === 'signal') return [entity];
  if (entity?.kind === 'record') return entity.parts.map(({ signal }) => signal);
  if (entity?.kind !== 'array') return [];
  return entity.memory === null ? (entity.words ?? []) : [entity.memory.signal];
}
