// Definition 5: one domain per root, and one per output where clocks that are not of one domain come together (a
// switch). Two domains are related only where a person relates their roots.

import { bitKey } from '../netlist/bit-key';
import { compareText } from '../text/compare';
import type { Bit } from '../netlist/netlist';

import type { ListedClock } from './clock-list';
import { type ClockOptions, comparePlaces, type Domain, type DomainId, type Root } from './network';

export interface DomainList {
  /** In order of place, then name, without their registers. */
  readonly domains: readonly Omit<Domain, 'registers'>[];
  /** The domain named by a bit (`ClockWalk.domain`). */
  idOf(bit: Bit | null): DomainId | null;
}

export function listDomains(options: ClockOptions, roots: readonly Root[], clocks: readonly ListedClock[]): DomainList {
  const rootIndex = new Map(roots.map(({ bit }, index) => [bitKey(bit), index]));
  const named = new Map(clocks.map((clock) => [bitKey(clock.walk.bit), clock]));
  const keys = new Set(clocks.flatMap(({ walk }) => (walk.domain === null ? [] : [bitKey(walk.domain)])));
  const founders = [...keys].flatMap((key) => named.get(key) ?? []);
  founders.sort((left, right) => comparePlaces(left.place, right.place) || compareText(left.name, right.name));
  const ids = new Map(founders.map(({ walk }, index) => [bitKey(walk.bit), index as DomainId]));
  const groups = relatedGroups(options, founders);
  const domains = founders.map(({ walk, name, place }, index) => ({
    id: index as DomainId,
    name,
    roots: walk.roots.flatMap((key) => rootIndex.get(key) ?? []).sort((left, right) => left - right),
    related: relatedTo(groups, index as DomainId),
    place,
  }));
  return { domains, idOf: (bit) => (bit === null ? null : (ids.get(bitKey(bit)) ?? null)) };
}

type Group = readonly DomainId[];

function relatedGroups({ related }: ClockOptions, founders: readonly ListedClock[]): Group[] {
  const byName = new Map(founders.map(({ name }, index) => [name, index as DomainId]));
  return related.map((names) => names.flatMap((name) => byName.get(name) ?? []));
}

function relatedTo(groups: readonly Group[], domain: DomainId): DomainId[] {
  const others = groups.filter((group) => group.includes(domain)).flat();
  return [...new Set(others)].filter((other) => other !== domain).sort((left, right) => left - right);
}
