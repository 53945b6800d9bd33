// Which expression is connected to which port: by order, by name, `.name` and `.*` (IEEE 1364-2005 12.3.5, 12.3.6).

import type { Connection, Expression } from '../syntax/tables';
import type { ChildDraft, ModuleDraft } from './module-draft';
import { lookUp } from './scope';
import type { PortShape } from './template';

type Connected = Pick<ChildDraft, 'item' | 'scope' | 'table'>;
type PortName = Pick<PortShape, 'name'>;

/** By port, in header order: what is connected, or null where the port is left open. */
export function connectedExpressions(
  draft: ModuleDraft,
  child: Connected,
  ports: readonly PortName[],
): (Expression | null)[] {
  const connected = new Map<number, Expression | null>();
  const { connections } = child.table;
  const byOrder = connections.filter(({ name, implied }) => name === null && implied !== 'all');
  if (byOrder.length > ports.length) sayTooMany(draft, child, byOrder, ports.length);
  for (const [index, { value }] of byOrder.slice(0, ports.length).entries()) connected.set(index, value);
  for (const connection of connections) {
    if (connection.name !== null) connectByName(draft, child, ports, connection, connected);
  }
  const rest = connections.find(({ implied }) => implied === 'all');
  if (rest !== undefined) connectRest(draft, child, ports, rest, connected);
  return ports.map((_, index) => connected.get(index) ?? null);
}

function sayTooMany(draft: ModuleDraft, child: Connected, given: readonly Connection[], ports: number): void {
  const isEmptyList = given.length === 1 && given[0].value === null;
  if (isEmptyList) return;
  const args = { module: child.item.module.name, given: given.length, ports };
  draft.log.add('too-many-ports', args, draft.source.place(given[ports].at));
}

function connectByName(
  draft: ModuleDraft,
  child: Connected,
  ports: readonly PortName[],
  { name, value, implied, at }: Connection,
  connected: Map<number, Expression | null>,
): void {
  if (name === null) return;
  const index = ports.findIndex((port) => port.name === name.name);
  const args = { module: child.item.module.name, port: name.name };
  if (index < 0) {
    draft.log.add('unknown-port', args, draft.source.place(name));
    return;
  }
  if (connected.has(index)) {
    draft.log.add('port-connected-twice', args, draft.source.place(at));
    return;
  }
  connected.set(index, implied === 'name' ? { kind: 'name', at: name, name: name.name } : value);
}

/** `.*` connects every port left to what has its name; an output or input whose name is not there is said. */
function connectRest(
  draft: ModuleDraft,
  child: Connected,
  ports: readonly PortName[],
  { at }: Connection,
  connected: Map<number, Expression | null>,
): void {
  ports.forEach(({ name }, index) => {
    if (name === null || connected.has(index)) return;
    if (lookUp(child.scope, name) === null) draft.log.add('undeclared-name', { name }, draft.source.place(at));
    else connected.set(index, { kind: 'name', at, name });
  });
}
