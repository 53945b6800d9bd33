// Every name that stands in the source, and what it means: for going to a declaration and for finding the uses of a name.
// Names are taken from the words of the text and looked up in the scopes of its tables, innermost first, so that a module
// which is half typed keeps its names. Left out: members of hierarchical names, and names that only a macro spells out.

import { canonicalName } from '../syntax/names';
import type { Reading, Unit } from '../syntax/read';
import type { ModuleTable } from '../syntax/tables';
import { nextToken, type Token, wordOf } from '../syntax/tokens';
import { rangeOf, spanOfRange } from '../text/origin';
import type { Span, UnitOffset } from '../text/place';
import { connectedWrites } from './connected-writes';
import { type Declaration, type KnownModule, type Scope, scopesOf } from './scopes';

export interface NameUse {
  readonly name: string;
  /** Two uses with one meaning mean the same thing. */
  readonly meaning: string;
  readonly role: 'declared' | 'written' | 'read';
  /** It names a module. */
  readonly isModule: boolean;
  /** The name alone, as typed. */
  readonly span: Span;
}

/** In source order; `.clk` alone is two uses, of the port and of the signal here. Yields after each unit. */
export function* listNames(reading: Reading): Generator<void, readonly NameUse[]> {
  const modules = modulesByName(reading.units);
  const uses: NameUse[] = [];
  for (const [index, unit] of reading.units.entries()) {
    if (unit.table.kind === 'module')
      uses.push(...namesOfUnit(openDesk(reading, modules, { index, unit, table: unit.table })));
    yield;
  }
  return uses;
}

/** What one module's names are looked up with. */
interface Desk {
  readonly reading: Reading;
  readonly modules: ReadonlyMap<string, KnownModule>;
  readonly unit: Unit;
  readonly own: KnownModule;
  readonly written: ReadonlySet<number>;
  /** Offsets of `.name` alone. */
  readonly implied: ReadonlySet<number>;
}

/** Of two modules with one name the first, as elaboration takes it. */
function modulesByName(units: readonly Unit[]): Desk['modules'] {
  const modules = new Map<string, KnownModule>();
  for (const [index, { table, text }] of units.entries()) {
    if (table.kind === 'module' && !modules.has(table.name.name))
      modules.set(table.name.name, { index, table, scopes: scopesOf(table, text) });
  }
  return modules;
}

function openDesk(
  reading: Reading,
  modules: Desk['modules'],
  { index, table, unit }: { readonly index: number; readonly table: ModuleTable; readonly unit: Unit },
): Desk {
  const known = modules.get(table.name.name);
  const own = known?.index === index ? known : { index, table, scopes: scopesOf(table, unit.text) };
  const { connected, written } = own.scopes;
  const implied = connected.flatMap(({ connection: { implied, name } }) =>
    implied === 'name' && name !== null ? [name.start] : [],
  );
  return {
    reading,
    modules,
    unit,
    own,
    written: new Set([...written, ...connectedWrites(own.scopes, modules)]),
    implied: new Set(implied),
  };
}

function* namesOfUnit(desk: Desk): Generator<NameUse> {
  const { text } = desk.unit;
  let before: Token | null = null;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const found = token.kind === 'name' ? meaningsOf(desk, token, before) : [];
    const span = found.length === 0 ? null : typedSpan(desk, token);
    if (span !== null) yield* found.map((each) => ({ ...each, span }));
    before = token;
  }
}

type Found = Omit<NameUse, 'span'>;

function meaningsOf(desk: Desk, token: Token, before: Token | null): readonly Found[] {
  const { own, unit } = desk;
  const name = canonicalName(wordOf(unit.text, token));
  const isOwn = own.table.name.name === name;
  const mark = before === null ? '' : wordOf(unit.text, before);
  if (isOwn && own.table.name.start === token.start) return [moduleUse(name, 'declared')];
  const isClosingLabel = isOwn && mark === ':' && unit.text.slice(token.end).trim() === '';
  if (isClosingLabel || own.scopes.moduleNames.has(token.start)) return [moduleUse(name, 'read')];
  if (mark !== '.') return [localMeaning(desk, token, name)];
  const port = connectionMeaning(desk, token, name);
  return [
    ...(port === null ? [] : [port]),
    ...(desk.implied.has(token.start) ? [localMeaning(desk, token, name)] : []),
  ];
}

function moduleUse(name: string, role: 'declared' | 'read'): Found {
  return { name, meaning: `module ${name}`, role, isModule: true };
}

/** `.name` in a connection is declared in the instantiated module; behind another dot it is a member, left out. */
function connectionMeaning({ modules, own }: Desk, token: Token, name: string): Found | null {
  const module = modules.get(own.scopes.connectionNames.get(token.start) ?? '');
  if (module === undefined) return null;
  return { name, meaning: lookUp(module, name, module.table.at.start).meaning, role: 'read', isModule: false };
}

function localMeaning({ own, written }: Desk, token: Token, name: string): Found {
  const { declarations, meaning } = lookUp(own, name, token.start);
  const isDeclared = declarations.some((each) => each.name.start === token.start);
  return {
    name,
    meaning,
    role: isDeclared ? 'declared' : written.has(token.start) ? 'written' : 'read',
    isModule: false,
  };
}

interface LookedUp {
  readonly meaning: string;
  readonly declarations: readonly Declaration[];
}

/** A name that nothing declares belongs to its module: an implicit net, or a mistake that reading complains of. */
function lookUp({ index, scopes }: KnownModule, name: string, offset: number): LookedUp {
  let owner = scopes.scope;
  for (let scope = innerAt(owner, offset); scope !== null; scope = innerAt(scope, offset)) {
    if (scope.declarations.has(name)) owner = scope;
  }
  return {
    meaning: `${index} ${owner.at.start} ${owner.depth} ${name}`,
    declarations: owner.declarations.get(name) ?? [],
  };
}

function innerAt(scope: Scope, offset: number): Scope | null {
  return scope.inner.find(({ at }) => at.start <= offset && offset < at.end) ?? null;
}

/** Null where the name does not stand in a file as it is read: a macro or a joined word made it. */
function typedSpan({ reading, unit }: Desk, token: Token): Span | null {
  const range = rangeOf(unit.origin, { start: token.start as UnitOffset, end: token.end as UnitOffset });
  const typed = reading.files[range.file].text.slice(range.start, range.end);
  return typed === wordOf(unit.text, token) ? spanOfRange(reading.files, range) : null;
}
