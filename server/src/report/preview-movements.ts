// When a group of bits is moving: from the first change after a root edge to the last one that the same edge causes, with
// the digits before and after. What readings and glitch marks are read from.

import { digitOf } from '../explain/words';
import type { Bit } from '../netlist/netlist';
import type { Waves } from '../predict/waves';

export interface Movement {
  /** ps, of the first and the last change. */
  readonly from: number;
  readonly to: number;
  /** Digits, most significant first. */
  readonly before: string;
  readonly after: string;
  /** The root changes behind it. */
  readonly roots: ReadonlySet<number>;
}

export interface PlacedChange {
  /** Index in the waves' changes. */
  readonly change: number;
  /** Index in the list of bits. */
  readonly position: number;
}

/** The changes of several sources in the order in which they happened. */
export function changesInOrder(waves: Waves, bits: readonly Bit[]): readonly PlacedChange[] {
  const found = bits.flatMap((bit, position) => Array.from(waves.changesOf(bit), (change) => ({ change, position })));
  return bits.length === 1 ? found : found.sort((left, right) => left.change - right.change);
}

/** Bits most significant first. Edges whose effects overlap in time are one movement. */
export function movementsOf(waves: Waves, roots: Int32Array, bits: readonly Bit[]): readonly Movement[] {
  const ordered = changesInOrder(waves, bits);
  const digits: string[] = bits.map((bit) => digitOf(waves.startOf(bit)));
  return grouped(waves, roots, ordered).map(({ from, to, changes }) => {
    const before = digits.join('');
    for (const { change, position } of changes)
      digits[position] = digitOf(waves.changes.value[change] as 0 | 1 | 2 | 3);
    return { from, to, before, after: digits.join(''), roots: new Set(changes.map(({ change }) => roots[change])) };
  });
}

interface Group {
  readonly from: number;
  to: number;
  readonly changes: PlacedChange[];
}

function grouped({ changes: { time } }: Waves, roots: Int32Array, ordered: readonly PlacedChange[]): readonly Group[] {
  const lastOfRoot = new Map<number, number>();
  for (const { change } of ordered) lastOfRoot.set(roots[change], time[change]);
  const groups: Group[] = [];
  for (const entry of ordered) {
    const at = time[entry.change];
    const until = lastOfRoot.get(roots[entry.change]) ?? at;
    const open = groups[groups.length - 1];
    if (open !== undefined && at <= open.to) {
      open.changes.push(entry);
      open.to = Math.max(open.to, until);
    } else {
      groups.push({ from: at, to: until, changes: [entry] });
    }
  }
  return groups;
}
