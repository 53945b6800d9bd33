// A file as handed to a study. The edge reads files; the core only ever sees their text.

export interface SourceFile {
  /** As given, with `/`. */
  readonly path: string;
  readonly text: string;
}
