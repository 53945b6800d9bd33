// Made-up places, and the instances that dotted names ask for, for circuits by hand.

import type { Instance, InstanceId } from '../../server/src/netlist/netlist';
import type { Place, UnitOffset } from '../../server/src/text/place';

export type Places = ReturnType<typeof createPlaces>;
export type Scopes = ReturnType<typeof createScopes>;

/** Places in order of declaration, a hundred characters apart. `current` is the last one given. */
export function createPlaces() {
  let count = 0;
  let current: Place = placeAt(0, 3);
  return {
    get current() {
      return current;
    },
    next(text: string): Place {
      count += 1;
      current = placeAt(count * 100, text.length);
      return current;
    },
  };
}

function placeAt(start: number, length: number): Place {
  return { unit: 0, start: start as UnitOffset, end: (start + length) as UnitOffset };
}

/** The instances that dotted names ask for, parents before children. */
export function createScopes(topModule: string, places: Places) {
  const instances: { -readonly [Name in keyof Instance]: Instance[Name] }[] = [];
  const byPath = new Map<string, InstanceId>();

  function add(path: string, module: string): InstanceId {
    const known = byPath.get(path);
    if (known !== undefined) return known;
    const parent = path === '' ? null : instanceOf(path);
    const id = instances.length as InstanceId;
    instances.push({ id, path, module, parent, place: places.next(path), children: [], parameters: [] });
    byPath.set(path, id);
    if (parent !== null) instances[parent].children = [...instances[parent].children, id];
    return id;
  }

  /** The instance in which a dotted name is declared. */
  function instanceOf(name: string): InstanceId {
    const path = name.includes('.') ? name.slice(0, name.lastIndexOf('.')) : '';
    return add(path, path.slice(path.lastIndexOf('.') + 1));
  }

  add('', topModule);
  return {
    declare(path: string, module: string): void {
      instances[add(path, module)].module = module;
    },
    instanceOf,
    instances: (): readonly Instance[] => instances,
  };
}
