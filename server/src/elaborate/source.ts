// The text of one unit, and places in it or in the units whose tables it uses. One place object per stretch of the
// tables, so that what was made from the same construct shares it.

import type { At } from '../syntax/tables';
import type { Place } from '../text/place';

export interface UnitSource {
  /** Index in the study's list of units. */
  readonly unit: number;
  place(at: At): Place;
  /** As written, with every stretch of white space as one blank. */
  textOf(at: At): string;
}

/** `textOfUnit`: the text of any unit. */
export function createUnitSource(unit: number, textOfUnit: (unit: number) => string): UnitSource {
  const places = new Map<At, Place>();
  return {
    unit,
    place(at) {
      const known = places.get(at);
      if (known !== undefined) return known;
      const place: Place = { unit: at.unit ?? unit, start: at.start, end: at.end };
      places.set(at, place);
      return place;
    },
    textOf(at) {
      return textOfUnit(at.unit ?? unit)
        .slice(at.start, at.end)
        .replace(/\s+/g, ' ')
        .trim();
    },
  };
}
