// Where a fact stands. A place is a stretch of the expanded text of one unit (a slice of a file at a
// design-unit boundary); a span is what a person sees: a stretch of a file as typed. Only `text/`
// converts between the two, and between zero-based and one-based counting.

/** Zero-based index of a UTF-16 unit in the expanded text of one unit. */
export type UnitOffset = number & { readonly unitOffset: unique symbol };

/** Zero-based index of a UTF-16 unit in a file as typed. */
export type FileOffset = number & { readonly fileOffset: unique symbol };

/** A stretch of one unit's expanded text, end exclusive. `unit` indexes the study's list of units. */
export interface Place {
  readonly unit: number;
  readonly start: UnitOffset;
  readonly end: UnitOffset;
}

/** A stretch of a file as typed: one-based lines and UTF-16 columns, end exclusive, tab = 1, CRLF = 1 line end. */
export interface Span {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** A stretch of a file as typed in offsets, for sorting and for edits. `file` indexes the study's files. */
export interface FileRange {
  readonly file: number;
  readonly start: FileOffset;
  readonly end: FileOffset;
}
