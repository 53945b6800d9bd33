// The way from a place in a unit's expanded text to what a person sees: a span, and the words that stand there. Also
// the order of everything in a report: file as given, offset, then instance path (or name), by code unit.

import { compareText } from '../text/compare';
import { type IndexedFile, type Origin, spanOf, spanOfRange, writtenTextOf } from '../text/origin';
import type { Place, Span } from '../text/place';

/** A unit as read: where its text comes from and the text itself, expanded. */
export interface PlacedUnit {
  readonly origin: Origin;
  readonly text: string;
}

export interface Places {
  spanOf(place: Place): Span;
  /** The expanded text at a place, white space and line ends as one blank each. */
  textOf(place: Place): string;
  /** For a place in text that a macro makes: where in the macro's definition it is written. */
  writtenIn(place: Place): { readonly macro: string; readonly span: Span } | null;
}

export function createPlaces(files: readonly IndexedFile[], units: readonly PlacedUnit[]): Places {
  return {
    spanOf: (place) => spanOf(files, units[place.unit].origin, place),
    textOf: (place) => units[place.unit].text.slice(place.start, place.end).replace(/\s+/g, ' '),
    writtenIn: (place) => {
      const written = writtenTextOf(units[place.unit].origin, place);
      return written === null ? null : { macro: written.macro, span: spanOfRange(files, written.range) };
    },
  };
}

export interface Spanned {
  readonly span: Span;
}

/** Sorted by span, then by `pathOf`; what is equal keeps its order. */
export function inOrder<Item extends Spanned>(
  items: readonly Item[],
  pathOf: (item: Item) => string = () => '',
): Item[] {
  return [...items].sort(
    (left, right) => compareSpans(left.span, right.span) || compareText(pathOf(left), pathOf(right)),
  );
}

export function compareSpans(left: Span, right: Span): number {
  return (
    compareText(left.file, right.file) ||
    left.line - right.line ||
    left.column - right.column ||
    left.endLine - right.endLine ||
    left.endColumn - right.endColumn
  );
}
