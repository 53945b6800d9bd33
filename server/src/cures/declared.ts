// Where a name of a module is declared and what gives it its value, as written.

import type { At, Declarator, Expression, Item, ModuleTable, TypeTable } from '../syntax/tables';
import type { UnitOffset } from '../text/place';
import type { CureContext } from './cure';

export interface Declared {
  readonly declarator: Declarator;
  readonly type: TypeTable;
  /** Null: a port of the header. */
  readonly item: Item | null;
}

export function moduleOf({ reading }: CureContext, unit: number): ModuleTable | null {
  const { table } = reading.units[unit];
  return table.kind === 'module' ? table : null;
}

/** The declaration that has the range, where a port is declared twice; generate blocks left out. */
export function declaredAs(module: ModuleTable, name: string): Declared | null {
  const found: Declared[] = module.ports
    .filter(({ declarator }) => declarator.name.name === name)
    .map(({ declarator, type }) => ({ declarator, type, item: null }));
  for (const item of module.items) {
    if (item.kind === 'port' && item.port.declarator.name.name === name)
      found.push({ declarator: item.port.declarator, type: item.port.type, item });
    if (item.kind === 'net' || item.kind === 'variable')
      for (const declarator of item.declarators)
        if (declarator.name.name === name) found.push({ declarator, type: item.type, item });
  }
  return found.find(({ type }) => type.ranges.length > 0 || type.named !== undefined) ?? found[0] ?? null;
}

/** `[3:0] ` or `signed [W-1:0] ` as declared; empty for one bit. */
export function rangeText(context: CureContext, unit: number, name: string): string {
  const module = moduleOf(context, unit);
  const declared = module === null ? null : declaredAs(module, name);
  if (declared === null) return '';
  const { text } = context.reading.units[unit];
  const ranges = declared.type.ranges.map(({ at }) => `${text.slice(at.start, at.end)} `).join('');
  return `${declared.type.signed ? 'signed ' : ''}${ranges}`;
}

export interface Definition {
  readonly value: Expression;
  /** The item that holds it. */
  readonly item: Item;
}

/** Where the words of a definition begin, `assign` with them; null where others stand in one statement with it. */
export function beginningOf(text: string, { item }: Definition): number | null {
  if (item.kind !== 'assign') return item.kind === 'net' && item.declarators.length > 1 ? null : item.at.start;
  const found = /(?<![\w$])assign\s*(?:#\s*(?:[\w.]+|\([^()]*\))\s*)?$/.exec(text.slice(0, item.at.start));
  return found === null ? null : found.index;
}

/** The value with the parentheses around all of it. */
export function wholeValue(text: string, { at }: Expression): { readonly at: At } {
  let { end, start } = at as { start: number; end: number };
  for (;;) {
    const before = /\(\s*$/.exec(text.slice(0, start));
    const behind = /^\s*\)/.exec(text.slice(end));
    if (before === null || behind === null) return { at: { start, end } as At };
    start = before.index;
    end += behind[0].length;
  }
}

/** The one continuous assignment, or value of a net's declaration, that gives a whole name its value. */
export function definitionOf(module: ModuleTable, name: string): Definition | null {
  const found: Definition[] = [];
  for (const item of module.items) {
    if (item.kind === 'assign' && item.target.kind === 'name' && item.target.name === name)
      found.push({ value: item.value, item });
    if (item.kind === 'net')
      for (const { name: declared, value } of item.declarators)
        if (declared.name === name && value !== null) found.push({ value, item });
  }
  return found.length === 1 ? found[0] : null;
}

export function textOf(
  { reading }: CureContext,
  unit: number,
  { at }: { readonly at: { readonly start: UnitOffset; readonly end: UnitOffset } },
): string {
  return reading.units[unit].text.slice(at.start, at.end);
}
