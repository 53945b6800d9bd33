// Which modules the given units hold, which of them each one's text instantiates, and which are test benches.

import type { Item, ModuleTable, Statement, UnitTable } from '../syntax/tables';
import { statementsIn } from '../syntax/statements-in';

export interface UnitInput {
  readonly table: UnitTable;
  /** The expanded text that the table's places index. */
  readonly text: string;
  /** Number of the file it stands in; without it all units stand in one. */
  readonly file?: number;
}

export interface ModuleUse {
  readonly table: ModuleTable;
  readonly unit: number;
  /** Names of the modules its text instantiates, given or not, in any branch. */
  readonly uses: ReadonlySet<string>;
  /** Whether some other given module instantiates it. */
  readonly isInstantiated: boolean;
  /** Whether one that is no test bench does. */
  readonly isPart: boolean;
  /** No ports, and initial blocks or delays: made to drive another module. */
  readonly isTestBench: boolean;
}

export interface ModuleUses {
  /** The first of each name, in source order. */
  readonly modules: readonly ModuleUse[];
  /** Later ones of the same name. */
  readonly repeated: readonly { readonly table: ModuleTable; readonly unit: number }[];
}

export function findModules(units: readonly UnitInput[]): ModuleUses {
  const found = new Map<string, { table: ModuleTable; unit: number; uses: Set<string> }>();
  const repeated: { table: ModuleTable; unit: number }[] = [];
  units.forEach(({ table }, unit) => {
    if (table.kind !== 'module') return;
    if (found.has(table.name.name)) repeated.push({ table, unit });
    else found.set(table.name.name, { table, unit, uses: usedModules(table.items) });
  });
  const listed = [...found].map(([name, module]) => ({ ...module, name, isTestBench: isTestBench(module.table) }));
  const usedBy = (users: typeof listed) =>
    new Set(users.flatMap(({ name, uses }) => [...uses].filter((used) => used !== name)));
  const instantiated = usedBy(listed);
  const parts = usedBy(listed.filter((user) => !user.isTestBench));
  const modules = listed.map(({ name, ...module }) => ({
    ...module,
    isInstantiated: instantiated.has(name),
    isPart: parts.has(name),
  }));
  return { modules, repeated };
}

function usedModules(items: readonly Item[]): Set<string> {
  const uses = new Set<string>();
  for (const item of everyItem(items)) if (item.kind === 'instances') uses.add(item.module.name);
  return uses;
}

/** All items, those of generate constructs too, whether taken or not. */
function everyItem(items: readonly Item[]): Item[] {
  const all: Item[] = [];
  const pending = [...items].reverse();
  for (let item = pending.pop(); item !== undefined; item = pending.pop()) {
    all.push(item);
    pending.push(...itemsInside(item).reverse());
  }
  return all;
}

function itemsInside(item: Item): Item[] {
  switch (item.kind) {
    case 'generate-if':
      return [...(item.then?.items ?? []), ...(item.else?.items ?? [])];
    case 'generate-for':
      return [...item.body.items];
    case 'generate-case':
      return item.items.flatMap(({ body }) => body.items);
    case 'generate-block':
      return [...item.block.items];
    default:
      return [];
  }
}

function isTestBench({ ports, slots, items }: ModuleTable): boolean {
  if (ports.length > 0 || slots.some(({ expression }) => expression !== null)) return false;
  return everyItem(items).some((item) => item.kind === 'process' && (item.flavor === 'initial' || waits(item.body)));
}

function waits(body: Statement): boolean {
  const pending = [body];
  for (let statement = pending.pop(); statement !== undefined; statement = pending.pop()) {
    if (statement.kind === 'delay' || statement.kind === 'wait') return true;
    pending.push(...statementsIn(statement));
  }
  return false;
}
