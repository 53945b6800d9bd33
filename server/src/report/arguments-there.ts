// The arguments of a function or task that is called at a place.

import type { Reading } from '../syntax/read';
import type { Item, SubroutineItem } from '../syntax/tables';
import { declarationThere, type NamesThere } from './names-in-scope';
import { type HeaderPart, subroutinePorts } from './unit-header';

/** Null where no such function or task is seen from there. */
export function argumentsThere({ units }: Reading, there: NamesThere, name: string): readonly HeaderPart[] | null {
  const found = declarationThere(there, name);
  if (found?.declaration.kind !== 'subroutine') return null;
  const { declaration, known } = found;
  const item = subroutinesIn(known.table.items).find((each) => each.name.start === declaration.name.start);
  return item === undefined ? null : subroutinePorts(item, units[known.index].text);
}

/** Those of generate blocks too. */
function subroutinesIn(items: readonly Item[]): readonly SubroutineItem[] {
  return items.flatMap((item): readonly SubroutineItem[] => {
    switch (item.kind) {
      case 'subroutine':
        return [item];
      case 'generate-if':
        return [item.then, item.else].flatMap((block) => subroutinesIn(block?.items ?? []));
      case 'generate-for':
        return subroutinesIn(item.body.items);
      case 'generate-case':
        return item.items.flatMap(({ body }) => subroutinesIn(body.items));
      case 'generate-block':
        return subroutinesIn(item.block.items);
      default:
        return [];
    }
  });
}
