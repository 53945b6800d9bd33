// What the command line needs of the machine, as an interface: the program decides, the world does. Tests hand in a
// world of their own.

import type { loadParser } from '../grammar';

export type Parser = Awaited<ReturnType<typeof loadParser>>;

export interface World {
  /** Absolute. */
  readonly currentFolder: string;
  /** Folder of the installed package: holds `examples/`. */
  readonly packageFolder: string;
  /** The text of a file, or null where there is no file or it cannot be read. */
  readText(path: string): string | null;
  /** Makes the folders on the way. Throws a `Refusal` where that fails. */
  writeText(path: string, text: string): void;
  loadParser(): Promise<Parser>;
  /** Becomes the language server on the standard streams, which ends the process itself. */
  serve(): Promise<never>;
}

/** What a command comes to. `output` goes to standard output, whole and at once. */
export interface Outcome {
  readonly output: string;
  readonly exitCode: 0 | 1;
}
