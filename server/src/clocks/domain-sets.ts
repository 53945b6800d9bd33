// Sets of domains as numbers: equal sets are one number, and unions are remembered, so that a set costs nothing to carry.

import type { DomainId } from './network';

export interface DomainSets {
  readonly empty: number;
  single(domain: DomainId): number;
  union(left: number, right: number): number;
  /** Ascending. */
  members(set: number): readonly DomainId[];
}

export function createDomainSets(): DomainSets {
  const all: (readonly DomainId[])[] = [[]];
  const byText = new Map<string, number>([['', 0]]);
  const unions = new Map<number, number>();

  function idOf(members: readonly DomainId[]): number {
    const text = members.join(' ');
    const known = byText.get(text);
    if (known !== undefined) return known;
    byText.set(text, all.length);
    return all.push(members) - 1;
  }

  return {
    empty: 0,
    single: (domain: DomainId) => idOf([domain]),
    members: (set: number) => all[set],
    union(left: number, right: number): number {
      if (left === right || right === 0) return left;
      if (left === 0) return right;
      const key = Math.min(left, right) * 2 ** 26 + Math.max(left, right);
      const known = unions.get(key);
      if (known !== undefined) return known;
      const members = [...new Set([...all[left], ...all[right]])].sort((one, other) => one - other);
      const made = idOf(members);
      unions.set(key, made);
      return made;
    },
  };
}
