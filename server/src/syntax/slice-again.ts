// The slices of an edited text, given those of the text before: only what lies around the edit is looked at. What comes out
// is what slicing the whole text afresh gives.

import { type Overlap, overlapOf } from '../text/overlap';
import { type IsReserved, type Slice, slicesFrom } from './slices';

export interface Sliced {
  readonly text: string;
  readonly slices: readonly Slice[];
}

export interface SlicedAgain extends Sliced {
  /** By slice: the one of before that it is, moved at most; -1 where it is none. */
  readonly before: Int32Array;
}

/** In both texts the same words must be reserved throughout. */
export function sliceAgain(before: Sliced, text: string, isReserved: IsReserved): SlicedAgain {
  const overlap = overlapOf(before.text, text);
  const kept = keptInFront(before.slices, overlap);
  const slices = before.slices.slice(0, kept);
  const shift = text.length - before.text.length;
  const boundaries = boundariesBehind(before, overlap);
  const known = slices.map((_, index) => index);
  let rest = before.slices.length;
  for (const slice of slicesFrom(text, slices.at(-1)?.end ?? 0, isReserved)) {
    slices.push(slice);
    known.push(-1);
    const behind = slice.what === 'loose' ? undefined : boundaries.get(slice.end - shift);
    if (behind === undefined) continue;
    rest = behind;
    break;
  }
  for (let index = rest; index < before.slices.length; index += 1) {
    slices.push(moved(before.slices[index], shift));
    known.push(index);
  }
  return { text, slices, before: Int32Array.from(known) };
}

/** How many slices up to the end of a unit hang on nothing that has changed. */
function keptInFront(slices: readonly Slice[], { start }: Overlap): number {
  let kept = 0;
  for (let index = 0; index < slices.length && slices[index].reach <= start; index += 1)
    if (slices[index].what !== 'loose') kept = index + 1;
  return kept;
}

/** Where a unit ends and nothing has changed behind it, with the index of the slice behind it: slicing looks forward only. */
function boundariesBehind({ slices, text }: Sliced, { end }: Overlap): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (let index = slices.length - 1; index >= 0 && slices[index].end >= text.length - end; index -= 1)
    if (slices[index].what !== 'loose') found.set(slices[index].end, index + 1);
  return found;
}

function moved(slice: Slice, shift: number): Slice {
  if (shift === 0) return slice;
  const { closed, end, opening, reach, start, what } = slice;
  // Field by field: a spread takes several times as long, and every edit moves all that stands behind it.
  return {
    what,
    start: start + shift,
    end: end + shift,
    opening: { kind: opening.kind, start: opening.start + shift, end: opening.end + shift },
    closed,
    reach: reach + shift,
  };
}
