// What a module finds in other units: packages and interfaces by name, and the declarations that stand outside every unit
// of its own file (IEEE 1800-2017 3.12.1: each file is taken as a compilation unit of its own).

import type { Item, ModuleTable, OtherUnitTable } from '../syntax/tables';
import type { Place } from '../text/place';
import { withUnit } from './foreign-tables';
import type { UnitInput } from './module-uses';
import type { Override } from './type-form';

export interface Library {
  /** The first of that name; null where none is given, or it could not be read. */
  package(name: string): ForeignUnit | null;
  interface(name: string): ForeignUnit | null;
  /** Given, as something whose names are not read: that has been said. */
  isUnread(name: string): boolean;
  /** Declarations outside every unit, in the file of the unit with that number. */
  outside(unit: number): { readonly file: number; readonly items: readonly Item[] };
}

/** An interface with the values of its parameters. */
export interface InterfaceForm {
  readonly unit: ForeignUnit;
  readonly overrides: ReadonlyMap<string, Override>;
}

export interface RepeatedUnit {
  readonly what: 'interface' | 'package';
  readonly name: string;
  readonly place: Place;
}

export interface ForeignUnit {
  readonly unit: number;
  /** Its places name the unit. */
  readonly table: ModuleTable;
}

export function createLibrary(units: readonly UnitInput[]): Library {
  const [packages, interfaces] = [byName(units, 'package'), byName(units, 'interface')];
  const unread = new Set(
    units.flatMap(({ table }) => (table.kind === 'other' && table.describes === null ? [table.name?.name ?? ''] : [])),
  );
  const known = new Map<number, ForeignUnit | null>();
  const outside = new Map<number, readonly Item[]>();

  function foreign(unit: number | undefined): ForeignUnit | null {
    const given = unit === undefined ? null : units[unit].table;
    if (unit === undefined || given?.kind !== 'other' || given.describes === null) return null;
    const found = known.get(unit) ?? { unit, table: withUnit(given.describes, unit) };
    known.set(unit, found);
    return found;
  }

  function itemsOutside(file: number): readonly Item[] {
    return units.flatMap(({ table, file: own = 0 }, unit) =>
      own === file && table.kind === 'other' && table.what === 'loose' ? (foreign(unit)?.table.items ?? []) : [],
    );
  }

  return {
    package: (name) => foreign(packages.get(name)),
    interface: (name) => foreign(interfaces.get(name)),
    isUnread: (name) => unread.has(name),
    outside(unit) {
      const { file = 0 } = units[unit];
      const items = outside.get(file) ?? itemsOutside(file);
      outside.set(file, items);
      return { file, items };
    },
  };
}

/** Packages and interfaces whose name an earlier one has: they are not looked at. */
export function repeatedUnits(units: readonly UnitInput[]): readonly RepeatedUnit[] {
  const seen = new Set<string>();
  return units.flatMap(({ table }, unit): RepeatedUnit[] => {
    if (table.kind !== 'other' || table.name === null) return [];
    const { name, what } = table;
    if (what !== 'package' && what !== 'interface') return [];
    const key = `${what} ${name.name}`;
    const isRepeated = seen.has(key);
    seen.add(key);
    return isRepeated ? [{ what, name: name.name, place: { unit, start: name.start, end: name.end } }] : [];
  });
}

function byName(units: readonly UnitInput[], what: OtherUnitTable['what']): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  units.forEach(({ table }, unit) => {
    if (table.kind !== 'other' || table.what !== what || table.name === null) return;
    if (!found.has(table.name.name)) found.set(table.name.name, unit);
  });
  return found;
}
