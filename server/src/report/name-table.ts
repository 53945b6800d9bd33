// Every name that stands in the source, and what it means: for going to a declaration and for finding the uses of a name.
// Names are taken from the words of the text and looked up in the scopes of its tables, innermost first, so that a module
// which is half typed keeps its names. `u.b.q` leads through the instances and blocks it names. Whatever stands in a branch
// that is not taken is left out.

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

/** A use with what somebody must know who replaces the name. */
export interface EveryUse extends NameUse {
  /**
   * port, signal: the two that `.clk` alone is; connection: `.clk` before its parenthesis; member: behind the dot of a
   * hierarchical name; plain: any other.
   */
  readonly form: 'plain' | 'connection' | 'port' | 'signal' | 'member';
  /** A macro spells it out: then the span is where the macro is used. */
  readonly isMade: boolean;
  /** Index of the unit whose text it stands in. */
  readonly unit: number;
}

/** As they are typed, in source order; `.clk` alone is two uses, of the port and of the signal here. Yields after each unit. */
export function* listNames(reading: Reading): Generator<void, readonly NameUse[]> {
  const uses = yield* listEveryName(reading);
  return uses.filter(({ isMade, meaning }) => !isMade && meaning !== unknownMember);
}

/** The meaning of a member of something that nobody knows here: a module that is not given, a name from further out. */
export const unknownMember = 'unknown member';

/** Also those that macros spell out, and members of what is unknown. */
export function* listEveryName(reading: Reading): Generator<void, readonly EveryUse[]> {
  const modules = modulesByName(reading.units);
  const uses: EveryUse[] = [];
  for (const [index, unit] of reading.units.entries()) {
    if (unit.table.kind === 'module')
      uses.push(...namesOfUnit(openDesk(reading, modules, { index, unit, table: unit.table }), index));
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

function* namesOfUnit(desk: Desk, index: number): Generator<EveryUse> {
  const { text } = desk.unit;
  const outside: (Where | null)[] = [];
  let where: Where | null = null;
  let before: Token | null = null;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const mark = before === null ? '' : wordOf(text, before);
    if (token.kind === 'name') {
      const found = meaningsOf(desk, token, mark, where);
      yield* usesFrom(desk, token, found.uses, index);
      where = found.leads;
    } else {
      where = whereBehind(wordOf(text, token), where, outside);
    }
    before = token;
  }
}

function* usesFrom(desk: Desk, token: Token, found: readonly Found[], unit: number): Generator<EveryUse> {
  if (found.length === 0) return;
  const { isMade, span } = spanOfToken(desk, token);
  for (const each of found) yield { ...each, isMade, span, unit };
}

/** What the next member is looked up in: an instance or block of a hierarchical name, a variable, or nobody knows. */
type Where =
  | { readonly kind: 'scope'; readonly known: KnownModule; readonly scope: Scope }
  | { readonly kind: 'value'; readonly meaning: string }
  | { readonly kind: 'unknown' };

/** An index between brackets belongs to no path, and the path goes on behind it: `u[0].q`. */
function whereBehind(mark: string, where: Where | null, outside: (Where | null)[]): Where | null {
  if (mark === '[') outside.push(where);
  if (mark === ']') return outside.pop() ?? null;
  return mark === '.' ? where : null;
}

type Found = Omit<EveryUse, 'span' | 'isMade' | 'unit'>;

interface Meanings {
  readonly uses: readonly Found[];
  readonly leads: Where | null;
}

function meaningsOf(desk: Desk, token: Token, mark: string, where: Where | null): Meanings {
  const { own, unit } = desk;
  const name = canonicalName(wordOf(unit.text, token));
  const isOwn = own.table.name.name === name;
  if (isOwn && own.table.name.start === token.start) return { uses: [moduleUse(name, 'declared')], leads: null };
  const isClosingLabel = isOwn && mark === ':' && unit.text.slice(token.end).trim() === '';
  if (isClosingLabel || own.scopes.moduleNames.has(token.start))
    return { uses: [moduleUse(name, 'read')], leads: null };
  if (mark === '.' && where !== null) return memberMeaning(desk, token, name, where);
  return mark === '.' ? { uses: connectionMeanings(desk, token, name), leads: null } : plainMeaning(desk, token, name);
}

function moduleUse(name: string, role: 'declared' | 'read'): Found {
  return { name, meaning: `module ${name}`, role, isModule: true, form: 'plain' };
}

/** A name that nothing here declares may begin a path at a module (IEEE 1364-2005 12.5). */
function plainMeaning(desk: Desk, token: Token, name: string): Meanings {
  const { modules, own, unit } = desk;
  const found = lookUp(own, name, token.start);
  const top = modules.get(name);
  const isPath = unit.text.charCodeAt(nextToken(unit.text, token.end).start) === dot;
  if (found.declarations.length === 0 && top !== undefined && isPath)
    return { uses: [moduleUse(name, 'read')], leads: { kind: 'scope', known: top, scope: top.scopes.scope } };
  return { uses: [localUse(desk, token, name, 'plain')], leads: leadsTo(desk, own, found) };
}

const dot = 0x2e;

function memberMeaning(desk: Desk, token: Token, name: string, where: Where): Meanings {
  const role = desk.written.has(token.start) ? 'written' : 'read';
  const use = (meaning: string): Found => ({ name, meaning, role, isModule: false, form: 'member' });
  if (where.kind === 'unknown') return { uses: [use(unknownMember)], leads: where };
  if (where.kind === 'value') {
    const meaning = `${where.meaning}.${name}`;
    return { uses: [use(meaning)], leads: { kind: 'value', meaning } };
  }
  const { known, scope } = where;
  const declarations = scope.declarations.get(name) ?? [];
  if (declarations.length === 0) return { uses: [use(unknownMember)], leads: { kind: 'unknown' } };
  const meaning = meaningIn(known, scope, name);
  return { uses: [use(meaning)], leads: leadsTo(desk, known, { declarations, meaning, scope }) };
}

/** An instance leads into its module, a block or subroutine into itself, anything else to members of its own. */
function leadsTo({ modules }: Desk, known: KnownModule, { declarations, meaning, scope }: LookedUp): Where {
  const [declaration] = declarations;
  if (declaration === undefined) return { kind: 'unknown' };
  if (declaration.kind === 'instance') {
    const module = modules.get(declaration.detail);
    return module === undefined ? { kind: 'unknown' } : { kind: 'scope', known: module, scope: module.scopes.scope };
  }
  const inner = scope.inner.find(({ at }) => at.start === declaration.at.start);
  const opens = declaration.kind === 'block' || declaration.kind === 'subroutine';
  return opens && inner !== undefined ? { kind: 'scope', known, scope: inner } : { kind: 'value', meaning };
}

/** `.name` in a connection is declared in the instantiated module, whether that is given or not; else it is left out. */
function connectionMeanings(desk: Desk, token: Token, name: string): readonly Found[] {
  const { implied, modules, own } = desk;
  const isImplied = implied.has(token.start);
  const moduleName = own.scopes.connectionNames.get(token.start);
  const module = modules.get(moduleName ?? '');
  const form = isImplied ? 'port' : 'connection';
  const meaning = module === undefined ? `${moduleName}.${name}` : lookUp(module, name, module.table.at.start).meaning;
  return [
    ...(moduleName === undefined ? [] : [{ name, meaning, role: 'read', isModule: false, form } as const]),
    ...(isImplied ? [localUse(desk, token, name, 'signal')] : []),
  ];
}

function localUse({ own, written }: Desk, token: Token, name: string, form: 'plain' | 'signal'): Found {
  const { declarations, meaning } = lookUp(own, name, token.start);
  const isDeclared = declarations.some((each) => each.name.start === token.start);
  const role = isDeclared ? 'declared' : written.has(token.start) ? 'written' : 'read';
  return { name, meaning, role, isModule: false, form };
}

interface LookedUp {
  readonly meaning: string;
  readonly declarations: readonly Declaration[];
  readonly scope: Scope;
}

/** A name that nothing declares belongs to its module: an implicit net, or a mistake that reading complains of. */
function lookUp(known: KnownModule, name: string, offset: number): LookedUp {
  let owner = known.scopes.scope;
  for (let scope = innerAt(owner, offset); scope !== null; scope = innerAt(scope, offset)) {
    if (scope.declarations.has(name)) owner = scope;
  }
  return {
    meaning: meaningIn(known, owner, name),
    declarations: owner.declarations.get(name) ?? [],
    scope: owner,
  };
}

function meaningIn({ index }: KnownModule, { at, depth }: Scope, name: string): string {
  return `${index} ${at.start} ${depth} ${name}`;
}

function innerAt(scope: Scope, offset: number): Scope | null {
  return scope.inner.find(({ at }) => at.start <= offset && offset < at.end) ?? null;
}

/** What does not stand in a file as it is read, a macro or a joined word made. */
function spanOfToken({ reading, unit }: Desk, token: Token): { readonly span: Span; readonly isMade: boolean } {
  const range = rangeOf(unit.origin, { start: token.start as UnitOffset, end: token.end as UnitOffset });
  const typed = reading.files[range.file].text.slice(range.start, range.end);
  return { span: spanOfRange(reading.files, range), isMade: typed !== wordOf(unit.text, token) };
}
