// Definition 5: one domain per root, and one per output where clocks that are not of one domain come together (a
// switch). Two domains are related only where a person relates their roots.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { compareText } from '../text/compare';
import type { Place } from '../text/place';
import type { ListedClock } from './clock-list';
import { type ClockOptions, comparePlaces, type Domain, type DomainId } from './network';

export interface DomainList {
  /** In order of place, then name, without their registers. */
  readonly domains: readonly Omit<Domain, 'registers'>[];
  /** The domain named by a bit (`ClockWalk.domain`). */
  idOf(bit: Bit | null): DomainId | null;
}

export function listDomains(
  options: ClockOptions,
  rootIds: ReadonlyMap<number, number>,
  clocks: readonly ListedClock[],
): DomainList {
  const founders = listFounders(clocks);
  const ids = new Map(founders.map(({ key }, index) => [key, index as DomainId]));
  const groups = relatedGroups(options, founders);
  const domains = founders.map(({ name, place, roots }, index) => ({
    id: index as DomainId,
    name,
    roots: roots.flatMap((key) => rootIds.get(key) ?? []).sort((left, right) => left - right),
    related: relatedTo(groups, index as DomainId),
    place,
  }));
  return { domains, idOf: (bit) => (bit === null ? null : (ids.get(bitKey(bit)) ?? null)) };
}

/** The bit that a domain is named by. */
interface Founder {
  readonly key: number;
  readonly name: string;
  readonly place: Place;
  readonly roots: readonly number[];
}

/** A switch that is a nameless part of an expression goes by the first clock that it is part of. */
function listFounders(clocks: readonly ListedClock[]): Founder[] {
  const keys = new Set(clocks.flatMap(({ walk }) => (walk.domain === null ? [] : [bitKey(walk.domain)])));
  const founders = new Map<number, Founder>();
  for (const { parts, name, place } of clocks) {
    for (const { bit, roots } of parts) {
      const key = bitKey(bit);
      if (keys.has(key) && !founders.has(key)) founders.set(key, { key, name, place, roots });
    }
  }
  return [...founders.values()].sort(
    (left, right) =>
      comparePlaces(left.place, right.place) || compareText(left.name, right.name) || left.key - right.key,
  );
}

type Group = readonly DomainId[];

function relatedGroups({ related }: ClockOptions, founders: readonly Founder[]): Group[] {
  const byName = new Map(founders.map(({ name }, index) => [name, index as DomainId]));
  return related.map((names) => names.flatMap((name) => byName.get(name) ?? []));
}

function relatedTo(groups: readonly Group[], domain: DomainId): DomainId[] {
  const others = groups.filter((group) => group.includes(domain)).flat();
  return [...new Set(others)].filter((other) => other !== domain).sort((left, right) => left - right);
}
