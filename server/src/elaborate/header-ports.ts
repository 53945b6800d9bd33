// A module's ports as seen from outside (IEEE 1364-2005 12.3.1 to 12.3.4): each a name and the signal bits behind it.

import type { Bits } from '../netlist/four-state';
import type { Expression, Item, ModuleTable, PortSlot, PortTable } from '../syntax/tables';
import { constantBits, contextIn } from './constants';
import { interfacePort } from './interface-ports';
import type { ModuleDraft, PortDraft, PortPart } from './module-draft';
import { sayNotConstant } from './not-constant';
import { createNodeReader } from './process-reader';
import { targetOf } from './targets';
import { wholeOf, type WholeValue } from './whole-values';

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
  const entity = draft.root.names.get(at.name);
  const isOne = entity?.kind === 'signal' || entity?.kind === 'record' || entity?.kind === 'array';
  const whole = isOne ? wholeOf(entity) : null;
  const seen = whole?.parts[0]?.signal.port ?? null;
  if (whole === null || seen === null) {
    draft.ports.push({ name: at.name, at, direction, parts: [], width: 0 });
    return;
  }
  const preset = seen === 'input' ? presetOf(draft, declarator, whole) : null;
  const parts = whole.parts.map(({ signal }) => ({ signal, low: 0, width: signal.shape.width }));
  const { form } = whole;
  const plain = { name: at.name, at, direction: seen, parts, width: form.width };
  const shown = form.kind === 'vector' ? plain : { ...plain, form };
  draft.ports.push(preset === null ? shown : { ...shown, preset });
}

/** Only an input has one: behind any other direction a value is the variable's start. */
function presetOf(draft: ModuleDraft, { value }: PortTable['declarator'], { form }: WholeValue): Bits | null {
  if (value === null) return null;
  const context = contextIn(draft, draft.root);
  const bits = constantBits(context, value, form.width, () => form);
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
