// A module's ports as seen from outside (IEEE 1364-2005 12.3.1 to 12.3.4): each a name and the signal bits behind it.

import type { Bits } from '../netlist/four-state';
import type { Expression, Item, ModuleTable, PortSlot, PortTable } from '../syntax/tables';
import { constantBits, contextIn } from './constants';
import { interfacePort } from './interface-ports';
import type { LocalSignal } from './local-signal';
import type { ModuleDraft, PortDraft, PortPart } from './module-draft';
import { sayNotConstant } from './not-constant';
import { createNodeReader } from './process-reader';
import { targetOf } from './targets';

type PortItem = Extract<Item, { kind: 'port' }>;

/** The body's items with its port declarations first, in the order of the header: the order ports are listed in. */
export function portsFirst({ ansi, slots, items }: ModuleTable): readonly Item[] {
  if (ansi) return items;
  const order = new Map<string, number>();
  slots.forEach(({ expression }, index) => {
    for (const name of namesIn(expression)) if (!order.has(name)) order.set(name, index);
  });
  const position = ({ port }: PortItem) => order.get(port.declarator.name.name) ?? slots.length;
  const ports = items.filter((item) => item.kind === 'port');
  ports.sort((left, right) => position(left) - position(right));
  return [...ports, ...items.filter((item) => item.kind !== 'port')];
}

function namesIn(expression: Expression | null): string[] {
  if (expression?.kind === 'name') return [expression.name];
  if (expression?.kind === 'concat') return expression.parts.flatMap(namesIn);
  return expression?.kind === 'index' || expression?.kind === 'range' ? namesIn(expression.base) : [];
}

export function addPorts(draft: ModuleDraft): void {
  if (draft.table.ansi) for (const port of draft.table.ports) addAnsiPort(draft, port);
  else for (const slot of draft.table.slots) draft.ports.push(slotPort(draft, slot));
}

/** A port whose declaration cannot be read keeps its place, without bits. */
function addAnsiPort(draft: ModuleDraft, port: PortTable): void {
  const { declarator, direction } = port;
  const at = declarator.name;
  if (port.interface !== undefined && draft.root.names.get(at.name)?.kind !== 'signal') {
    draft.ports.push(interfacePort(draft, at));
    return;
  }
  const signal = draft.root.names.get(at.name);
  if (signal?.kind !== 'signal' || signal.port === null) {
    draft.ports.push({ name: at.name, at, direction, parts: [], width: 0 });
    return;
  }
  const { width } = signal.shape;
  const preset = presetOf(draft, declarator, signal);
  const plain = { name: at.name, at, direction: signal.port, parts: [{ signal, low: 0, width }], width };
  draft.ports.push(preset === null ? plain : { ...plain, preset });
}

/** Only an input has one: behind any other direction a value is the variable's start. */
function presetOf(draft: ModuleDraft, { value }: PortTable['declarator'], { port, shape }: LocalSignal): Bits | null {
  if (value === null || port !== 'input') return null;
  const context = contextIn(draft, draft.root);
  const bits = constantBits(context, value, shape.width);
  if (bits === null) sayNotConstant(context, value);
  return bits;
}

function slotPort(draft: ModuleDraft, { external, expression, at }: PortSlot): PortDraft {
  const name = external?.name ?? (expression?.kind === 'name' ? expression.name : null);
  const nothing: PortDraft = { name, at, direction: declaredDirection(draft, name), parts: [], width: 0 };
  if (expression === null) return nothing;
  const context = contextIn(draft, draft.root);
  const target = targetOf({ context, reader: createNodeReader(draft, draft.otherReads, null) }, expression);
  const parts = target.parts.flatMap((part): PortPart[] => (part.kind === 'slice' ? [part] : []));
  const undeclared = parts.find(({ signal }) => signal.port === null);
  if (undeclared !== undefined) {
    const args = { module: draft.moduleName, port: undeclared.signal.name };
    draft.log.add('port-not-declared', args, draft.source.place(at));
    return nothing;
  }
  if (target.width === null || parts.length === 0) return nothing;
  return { name, at, direction: parts[0].signal.port ?? 'input', parts, width: target.width };
}

/** As the body says it, whether or not the rest of the declaration could be read. */
function declaredDirection({ table }: ModuleDraft, name: string | null): PortDraft['direction'] {
  const found = table.items.find((item) => item.kind === 'port' && item.port.declarator.name.name === name);
  return found?.kind === 'port' ? found.port.direction : 'input';
}
