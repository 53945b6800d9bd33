// What a design unit or subroutine asks of who uses it: parameters and ports in order, each as a few words of Verilog.

import type { At, Item, ModuleTable, PortTable, SubroutineItem, TypeTable } from '../syntax/tables';

export interface HeaderPart {
  readonly name: string;
  /** `input [3:0] a`, `W = 8`. */
  readonly words: string;
}

export interface UnitHeader {
  readonly name: string;
  readonly parameters: readonly HeaderPart[];
  readonly ports: readonly HeaderPart[];
}

/** `text`: the expanded text that the table indexes. */
export function unitHeader(module: ModuleTable, text: string): UnitHeader {
  const inHeader = parametersIn(module.parameters);
  const parameters = inHeader.length > 0 ? inHeader : parametersIn(module.items);
  return {
    name: module.name.name,
    parameters: parameters.flatMap((item) => parameterParts(item, text)),
    ports: module.ansi ? module.ports.map((port) => portPart(port, text)) : oldPorts(module, text),
  };
}

export function subroutinePorts({ ports }: SubroutineItem, text: string): readonly HeaderPart[] {
  return ports.map((port) => portPart(port, text));
}

type Parameters = Extract<Item, { readonly kind: 'parameter' | 'type-parameter' }>;

function parametersIn(items: readonly Item[]): readonly Parameters[] {
  return items.flatMap((item) =>
    (item.kind === 'parameter' || item.kind === 'type-parameter') && !item.local ? [item] : [],
  );
}

function parameterParts(item: Parameters, text: string): readonly HeaderPart[] {
  if (item.kind === 'type-parameter') {
    const initial = item.type === null ? '' : ` = ${slice(text, item.type.at)}`;
    return [{ name: item.name.name, words: `type ${item.name.name}${initial}` }];
  }
  const { declarators, type } = item;
  return declarators.map(({ name, value }) => {
    const range = rangesOf(type, text);
    const initial = value === null ? '' : ` = ${slice(text, value.at)}`;
    return { name: name.name, words: `${range}${name.name}${initial}` };
  });
}

function portPart({ declarator, direction, interface: reference, type }: PortTable, text: string): HeaderPart {
  const { name } = declarator.name;
  const kind = reference === undefined ? `${direction} ${rangesOf(type, text)}` : `${slice(text, reference)} `;
  return { name, words: `${kind}${name}` };
}

/** Those of an old header stand in its list alone; what they are stands in the body. */
function oldPorts({ items, slots }: ModuleTable, text: string): readonly HeaderPart[] {
  const declared = new Map(
    items.flatMap((item) => (item.kind === 'port' ? [[item.port.declarator.name.name, item.port] as const] : [])),
  );
  return slots.flatMap(({ expression, external }) => {
    const name = external?.name ?? (expression?.kind === 'name' ? expression.name : null);
    if (name === null) return [];
    const port = declared.get(name);
    return [port === undefined ? { name, words: name } : portPart(port, text)];
  });
}

function rangesOf({ ranges, signed }: TypeTable, text: string): string {
  const words = [...(signed ? ['signed'] : []), ...ranges.map(({ at }) => bracketed(slice(text, at)))];
  return words.length === 0 ? '' : `${words.join(' ')} `;
}

function bracketed(words: string): string {
  return words.startsWith('[') ? words : `[${words}]`;
}

function slice(text: string, { end, start }: At): string {
  return text.slice(start, end).replace(/\s+/g, ' ').trim();
}
