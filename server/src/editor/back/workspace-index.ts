// Which design units and macros stand in which file of the workspace, and which files name them. Holds what a scan of each
// file told and nothing that a study found. Where several files hold one name, the nearest to the asking file comes first.

import type { FileFacts, ScannedName, ScannedUnit } from '../../report/scan-file';
import { compareText } from '../../text/compare';
import { distanceBetween, fileKey, folderOf } from './uris';

export interface FoundUnit {
  readonly uri: string;
  readonly unit: ScannedUnit;
}

export interface FoundMacro {
  readonly uri: string;
  readonly macro: ScannedName;
}

export interface WorkspaceIndex {
  /** Null facts: there is no such file any more. Gives the names of units that came or went. */
  put(uri: string, facts: FileFacts | null): readonly string[];
  uris(): readonly string[];
  /** By URI, then in source order. */
  units(): readonly FoundUnit[];
  macros(): readonly FoundMacro[];
  /** Files that hold a unit of that name: beside the asking file, then in the libraries in their order, then by distance. */
  filesOf(name: string, asking: string, libraries: readonly string[]): readonly string[];
  /** Names that units of a file use and that it does not hold itself, as far as any file holds them. */
  usesOf(uri: string): readonly string[];
  /** Units that use one of these, or use one that does, and so on. By URI, then in source order. */
  unitsAbove(names: readonly string[]): readonly FoundUnit[];
}

export function createWorkspaceIndex(): WorkspaceIndex {
  const files = new Map<string, { readonly uri: string; readonly facts: FileFacts }>();
  /** How many files hold a unit of that name. */
  const holders = new Map<string, number>();

  function sorted() {
    return [...files.values()].sort((left, right) => compareText(left.uri, right.uri));
  }

  const units = () => sorted().flatMap(({ facts, uri }) => facts.units.map((unit) => ({ uri, unit })));

  return {
    put(uri, facts) {
      const key = fileKey(uri);
      const before = namesIn(files.get(key)?.facts ?? null);
      const after = namesIn(facts);
      for (const name of before) holders.set(name, (holders.get(name) ?? 0) - 1);
      for (const name of after) holders.set(name, (holders.get(name) ?? 0) + 1);
      if (facts === null) files.delete(key);
      else files.set(key, { uri, facts });
      return [...before, ...after].filter((name) => before.has(name) !== after.has(name));
    },
    uris: () => sorted().map(({ uri }) => uri),
    units,
    macros: () => sorted().flatMap(({ facts, uri }) => facts.macros.map((macro) => ({ uri, macro }))),
    filesOf(name, asking, libraries) {
      const holding = sorted().filter(({ facts }) => facts.units.some((unit) => unit.name === name));
      const ranked = holding.map(({ uri }) => ({ uri, rank: rankOf(uri, asking, libraries) }));
      return ranked
        .sort((left, right) => left.rank - right.rank || compareText(left.uri, right.uri))
        .map(({ uri }) => uri);
    },
    usesOf(uri) {
      const facts = files.get(fileKey(uri))?.facts ?? null;
      const own = namesIn(facts);
      const used = new Set(facts?.units.flatMap(({ uses }) => uses));
      return [...used].filter((name) => !own.has(name) && (holders.get(name) ?? 0) > 0);
    },
    unitsAbove: (names) => above(units(), names),
  };
}

function namesIn(facts: FileFacts | null): ReadonlySet<string> {
  return new Set(facts?.units.map(({ name }) => name));
}

/** More than any path is deep. */
const far = 1_000_000;

function rankOf(uri: string, asking: string, libraries: readonly string[]): number {
  if (fileKey(folderOf(uri)) === fileKey(folderOf(asking))) return 0;
  const library = libraries.findIndex((folder) => fileKey(uri).startsWith(fileKey(folder)));
  return library >= 0 ? 1 + library : far + distanceBetween(asking, uri);
}

function above(units: readonly FoundUnit[], names: readonly string[]): readonly FoundUnit[] {
  const reached = new Set(names);
  const found = new Set<FoundUnit>();
  for (let size = -1; size !== found.size; ) {
    size = found.size;
    for (const each of units) {
      if (found.has(each) || !each.unit.uses.some((name) => name !== each.unit.name && reached.has(name))) continue;
      found.add(each);
      reached.add(each.unit.name);
    }
  }
  return units.filter((each) => found.has(each));
}
