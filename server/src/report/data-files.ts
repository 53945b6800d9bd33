// The files that `$readmemh` and `$readmemb` name, out of what a study has at hand; and where those it lacks may be found:
// as for an include, beside the file that asks, then in each include folder.

import { includeCandidates, shelve } from '../syntax/includes';
import type { Reading } from '../syntax/read';
import type { SourceFile } from '../text/source';

/** What is at hand, and where the rest may be looked for. */
export interface AtHand {
  readonly files: readonly SourceFile[];
  readonly provided: readonly SourceFile[];
  readonly includeFolders: readonly string[];
}

export interface DataFiles {
  /** The text of a file that a unit names; null where it is not at hand: then it is wanted. */
  find(path: string, unit: number): string | null;
  /** Paths where what was not at hand may be found, in the order to try them. */
  wanted(): readonly string[];
}

export function openDataFiles({ files, includeFolders, provided }: AtHand, reading: Reading): DataFiles {
  const shelf = shelve(files, provided);
  const lacking = new Set<string>();
  return {
    find(path, unit) {
      const asking = reading.files[reading.units[unit].file].path;
      const candidates = includeCandidates(asking, path, includeFolders);
      for (const candidate of candidates) {
        const found = shelf.find(candidate);
        if (found !== null) return shelf.files[found].text;
      }
      for (const candidate of candidates) lacking.add(candidate);
      return null;
    },
    wanted: () => [...lacking],
  };
}
