// Every name that stands in the source, and what it means: for going to a declaration and for finding the uses of a name.
// Names are taken from the words of the text and looked up in the scopes of its tables, innermost first, so that a module
// which is half typed keeps its names. `u.b.q` leads through the instances and blocks it names. Whatever stands in a branch
// that is not taken is left out.

import { canonicalName } from '../syntax/names';
import type { Reading, Unit } from '../syntax/read';
import { nextToken, type Token, wordOf } from '../syntax/tokens';
import { rangeOf, spanOfRange } from '../text/origin';
import type { Span, UnitOffset } from '../text/place';
import { connectedWrites } from './connected-writes';
import {
  intoUnit,
  type KnownUnits,
  knowUnits,
  type LookedUp,
  leadsTo,
  lookUp,
  meaningIn,
  memberOf,
  type Where,
} from './name-lookup';
import type { DeclarationKind, KnownModule } from './scopes';

export interface NameUse {
  readonly name: string;
  /** Two uses with one meaning mean the same thing. */
  readonly meaning: string;
  readonly role: 'declared' | 'written' | 'read';
  /** It names a design unit. */
  readonly isModule: boolean;
  /** What it was declared as; null where nothing declares it. */
  readonly what: DeclarationKind | 'package' | 'interface' | null;
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
  const units = knowUnits(reading);
  const uses: EveryUse[] = [];
  for (const own of units.all) {
    uses.push(...namesOfUnit(openDesk(reading, units, own), own.index));
    yield;
  }
  return uses;
}

/** What one unit's names are looked up with. */
interface Desk {
  readonly reading: Reading;
  readonly units: KnownUnits;
  readonly unit: Unit;
  readonly own: KnownModule;
  readonly written: ReadonlySet<number>;
  /** Offsets of `.name` alone. */
  readonly implied: ReadonlySet<number>;
}

function openDesk(reading: Reading, units: KnownUnits, own: KnownModule): Desk {
  const { connected, written } = own.scopes;
  const implied = connected.flatMap(({ connection: { implied, name } }) =>
    implied === 'name' && name !== null ? [name.start] : [],
  );
  return {
    reading,
    units,
    unit: reading.units[own.index],
    own,
    written: new Set([...written, ...connectedWrites(own.scopes, units.byName)]),
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

/** An index between brackets belongs to no path, and the path goes on behind it: `u[0].q`. */
function whereBehind(mark: string, where: Where | null, outside: (Where | null)[]): Where | null {
  if (mark === '[') outside.push(where);
  if (mark === ']') return outside.pop() ?? null;
  return mark === '.' || mark === '::' ? where : null;
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
  if (isOwn && own.table.name.start === token.start) return { uses: [moduleUse(desk, name, 'declared')], leads: null };
  const isClosingLabel = isOwn && mark === ':' && unit.text.slice(token.end).trim() === '';
  if (isClosingLabel || own.scopes.moduleNames.has(token.start))
    return { uses: [moduleUse(desk, name, 'read')], leads: intoUnit(desk.units, name) };
  if ((mark === '.' || mark === '::') && where !== null) return memberMeaning(desk, token, name, where);
  return mark === '.' ? { uses: connectionMeanings(desk, token, name), leads: null } : plainMeaning(desk, token, name);
}

function moduleUse({ reading, units }: Desk, name: string, role: 'declared' | 'read'): Found {
  const known = units.byName.get(name);
  const table = known === undefined ? null : reading.units[known.index].table;
  const what = table?.kind === 'other' ? (table.what as 'package' | 'interface') : 'module';
  return { name, meaning: `module ${name}`, role, isModule: true, what, form: 'plain' };
}

/** A name that nothing here declares may begin a path at a module (IEEE 1364-2005 12.5) or be that of a package. */
function plainMeaning(desk: Desk, token: Token, name: string): Meanings {
  const { own, unit, units } = desk;
  const found = lookUp(units, own, name, token.start);
  const next = wordOf(unit.text, nextToken(unit.text, token.end));
  const isPath = next === '::' || (next === '.' && found.declarations.length === 0 && units.byName.has(name));
  if (isPath) return { uses: [moduleUse(desk, name, 'read')], leads: intoUnit(units, name) };
  return { uses: [localUse(desk, token, name, 'plain')], leads: leadsTo(units, found) };
}

function memberMeaning(desk: Desk, token: Token, name: string, where: Where): Meanings {
  const role = desk.written.has(token.start) ? 'written' : 'read';
  const use = (meaning: string, what: NameUse['what']): Found => ({
    name,
    meaning,
    role,
    isModule: false,
    what,
    form: 'member',
  });
  if (where.kind === 'unknown') return { uses: [use(unknownMember, null)], leads: where };
  if (where.kind === 'value') {
    const meaning = `${where.meaning}.${name}`;
    return { uses: [use(meaning, null)], leads: { kind: 'value', meaning } };
  }
  const found = memberOf(where, name);
  if (found === null) return { uses: [use(unknownMember, null)], leads: { kind: 'unknown' } };
  return { uses: [use(found.meaning, kindOf(found))], leads: leadsTo(desk.units, found) };
}

/** `.name` in a connection is declared in the instantiated module, whether that is given or not; else it is left out. */
function connectionMeanings(desk: Desk, token: Token, name: string): readonly Found[] {
  const { implied, own, units } = desk;
  const isImplied = implied.has(token.start);
  const moduleName = own.scopes.connectionNames.get(token.start);
  const module = units.byName.get(moduleName ?? '');
  const form = isImplied ? 'port' : 'connection';
  const meaning = module === undefined ? `${moduleName}.${name}` : meaningIn(module, module.scopes.scope, name);
  const what = module?.scopes.scope.declarations.get(name)?.[0].kind ?? null;
  return [
    ...(moduleName === undefined ? [] : [{ name, meaning, role: 'read', isModule: false, what, form } as const]),
    ...(isImplied ? [localUse(desk, token, name, 'signal')] : []),
  ];
}

function localUse({ own, units, written }: Desk, token: Token, name: string, form: 'plain' | 'signal'): Found {
  const found = lookUp(units, own, name, token.start);
  const { declarations, known, meaning } = found;
  const isDeclared = known === own && declarations.some((each) => each.name.start === token.start);
  const role = isDeclared ? 'declared' : written.has(token.start) ? 'written' : 'read';
  return { name, meaning, role, isModule: false, what: kindOf(found), form };
}

function kindOf({ declarations }: LookedUp): DeclarationKind | null {
  return declarations[0]?.kind ?? null;
}

/** What does not stand in a file as it is read, a macro or a joined word made. */
function spanOfToken({ reading, unit }: Desk, token: Token): { readonly span: Span; readonly isMade: boolean } {
  const range = rangeOf(unit.origin, { start: token.start as UnitOffset, end: token.end as UnitOffset });
  const typed = reading.files[range.file].text.slice(range.start, range.end);
  return { span: spanOfRange(reading.files, range), isMade: typed !== wordOf(unit.text, token) };
}
