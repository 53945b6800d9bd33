// The units of one expanded file: its slices, each with what is in force where it opens and with what the
// preprocessor noted inside it. Text between units is a unit only where it says something.

import type { Expansion } from './preprocess';
import { keywordSetOf, type Settings } from './directives';
import type { Remark } from './remark';
import { type Sliced, sliceAgain } from './slice-again';
import { type IsReserved, type Slice, sliceUnits } from './slices';
import { nextToken, openComment, wordOf } from './tokens';
import { lastAtOrBefore } from '../text/line-index';
import type { At } from './tables';
import type { UnitOffset } from '../text/place';

export interface UnitSlice {
  readonly slice: Slice;
  readonly text: string;
  readonly settings: Settings;
  /** Placed in the unit's text. */
  readonly noted: readonly Remark[];
  /** Index of its slice. */
  readonly index: number;
  /** Index of the slice of before that has the same text, where that is known; else -1. */
  readonly before: number;
}

/** The units of a file, and the slices of its text that they are made of. */
export interface CutFile {
  readonly sliced: Sliced;
  /** Whether every word that may be reserved is, everywhere in the file: then an edit leaves the slices around it alone. */
  readonly isPlain: boolean;
  readonly units: readonly UnitSlice[];
}

/** `last`: the same file as it was before; what has not changed is not cut again. */
export function unitsOf(expansion: Expansion, last: Pick<CutFile, 'isPlain' | 'sliced'> | null): CutFile {
  const { text, settings } = expansion;
  const isPlain = settings.every((setting) => keywordSetOf(setting.settings) === null);
  const again = isPlain && last?.isPlain ? sliceAgain(last.sliced, text, always) : null;
  const slices = again?.slices ?? sliceUnits(text, isPlain ? always : reservedBy(settings));
  const units = slicesSaid(expansion, slices).map((unit) => ({ ...unit, before: again?.before[unit.index] ?? -1 }));
  return { sliced: { text, slices }, isPlain, units };
}

const always: IsReserved = () => true;

function reservedBy(settings: Expansion['settings']): IsReserved {
  const offsets = settings.map((setting) => setting.offset);
  return (word, offset) => {
    const set = keywordSetOf(settings[lastAtOrBefore(offsets, offset)].settings);
    return set === null || !set.free.has(word);
  };
}

/** Those that say something. */
function slicesSaid(expansion: Expansion, slices: readonly Slice[]): readonly Omit<UnitSlice, 'before'>[] {
  const { text, settings, remarks } = expansion;
  const offsets = settings.map((setting) => setting.offset);
  const sorted = [...remarks].sort((left, right) => left.at.start - right.at.start);
  let next = 0;
  return slices.flatMap((slice, index) => {
    const first = next;
    while (next < sorted.length && (sorted[next].at.start < slice.end || index === slices.length - 1)) next += 1;
    const noted = sorted.slice(first, next);
    if (slice.what === 'loose' && noted.length === 0 && saysNothing(text, slice)) return [];
    return [
      {
        slice,
        index,
        text: text.slice(slice.start, slice.end),
        settings: settings[lastAtOrBefore(offsets, slice.opening.start)].settings,
        noted: noted.map((remark) => ({ ...remark, at: movedInto(slice, remark.at) })),
      },
    ];
  });
}

/** Only blanks, closed comments, attributes and semicolons. */
function saysNothing(text: string, slice: Slice): boolean {
  let token = nextToken(text, slice.start);
  while (token.start < slice.end && wordOf(text, token) === ';') token = nextToken(text, token.end);
  return token.start >= slice.end && (slice.end < text.length || openComment(text.slice(slice.start)) === null);
}

function movedInto(slice: Slice, at: At): At {
  const start = Math.min(at.start, slice.end) - slice.start;
  return { start: start as UnitOffset, end: Math.max(start, Math.min(at.end, slice.end) - slice.start) as UnitOffset };
}
