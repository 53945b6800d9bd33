// Where a damaged tree shows its damage, and which of a module's items may have caused it. Only a guess that
// saves work: what it leaves out is looked at where mending the suspects was not enough.

import { lastAtOrBefore } from '../text/line-index';
import type { FlatTree } from './flat-tree';
import { errorKind } from './slice-parser';
import type { Construct } from './word-walk';

export interface DamagedStretch {
  readonly start: number;
  readonly end: number;
}

/** What the parser skipped, and what it made up: a leaf without length. */
export function damagedStretches(tree: FlatTree): readonly DamagedStretch[] {
  const stretches: DamagedStretch[] = [];
  for (let node = 0; node < tree.length; node += 1) {
    const isMadeUp = tree.start[node] === tree.end[node] && tree.after[node] === node + 1;
    if (tree.kind[node] === errorKind || isMadeUp) stretches.push({ start: tree.start[node], end: tree.end[node] });
  }
  return stretches;
}

/** Items that damage touches, and the one before each: what it lacks shows behind its end. */
export function suspectItems(
  { header, items }: { readonly header: Construct; readonly items: readonly Construct[] },
  stretches: readonly DamagedStretch[],
): ReadonlySet<Construct> {
  const constructs = [header, ...items];
  const starts = constructs.map((each) => each.start);
  const suspects = new Set<Construct>();
  for (const { start, end } of stretches) {
    const last = lastAtOrBefore(starts, end);
    for (let index = Math.max(0, lastAtOrBefore(starts, start) - 1); index <= last; index += 1)
      suspects.add(constructs[index]);
  }
  return suspects;
}
