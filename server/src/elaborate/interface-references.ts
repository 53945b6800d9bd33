// What an interface's port is connected to (IEEE 1800-2017 25.3.2, 25.5, 25.10): an interface of this module, one of an
// array of them, all of an array, each with or without a modport.

import type { At, Expression, PortTable } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import { entityOf, isReference } from './references';
import type { InterfaceArray, InterfaceEntity } from './scope';

/** A number: it is connected to nothing that fits, by that complaint. `at`: the instance, for a port left open. */
export function interfaceAt(
  context: ExpressionContext,
  port: PortTable,
  expression: Expression | null,
  at: At,
): InterfaceEntity | InterfaceArray | number {
  const { log, source } = context;
  const wanted = port.interface?.name?.name ?? null;
  const args = { port: port.declarator.name.name, interface: wanted ?? 'interface' };
  if (expression === null) return log.add('interface-unconnected', args, source.place(at));
  const found = interfaceNamed(context, expression);
  if (typeof found === 'number') return found;
  const [first] = found === null ? [] : interfacesIn(found);
  const fits = found !== null && (first === undefined || wanted === null || first.name === wanted);
  return fits ? found : log.add('not-an-interface', args, source.place(expression.at));
}

/** Null for anything else than an interface; a number: not to be told, by that complaint. */
export function interfaceNamed(
  context: ExpressionContext,
  expression: Expression,
): InterfaceEntity | InterfaceArray | number | null {
  if (!isReference(expression)) return null;
  const found = entityOf(context, expression);
  if (typeof found === 'number') return found;
  const { entity, path } = found;
  if (entity.kind === 'hole') return entity.complaint;
  if (entity.kind !== 'interface' && entity.kind !== 'interfaces') return null;
  if (path.length === 0) return entity;
  return context.log.add('construct', { what: 'interface of another module' }, context.source.place(expression.at));
}

/** The leftmost first. */
export function interfacesIn(entity: InterfaceEntity | InterfaceArray): readonly InterfaceEntity[] {
  return entity.kind === 'interface' ? [entity] : [...entity.members.values()];
}
