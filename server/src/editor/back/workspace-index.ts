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

export interface Below {
  readonly libraries: readonly string[];
  readonly most: number;
  /** Names that matter to files that are themselves only needed; null: all. */
  readonly onTheWay: ReadonlySet<string> | null;
}

export interface NeededFile {
  readonly uri: string;
  /** The name that it was taken for, and the file that uses it. */
  readonly name: string;
  readonly asking: string;
  /** How many other files hold a unit of that name. */
  readonly others: number;
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
  /**
   * Files that the given ones need, and those that these need, without them: the nearest for each name that nothing
   * before it holds. Told from words alone, so that there may be more of them than a design needs.
   */
  filesBelow(uris: readonly string[], { libraries, most, onTheWay }: Below): readonly NeededFile[];
  /** Units that use one of these, or use one that does, and so on. By URI, then in source order. */
  unitsAbove(names: readonly string[]): readonly FoundUnit[];
}

export function createWorkspaceIndex(): WorkspaceIndex {
  const files = new Map<string, { readonly uri: string; readonly facts: FileFacts }>();
  /** By name of a unit: the files that hold one, by key. */
  const holders = new Map<string, Map<string, string>>();

  function sorted() {
    return [...files.values()].sort((left, right) => compareText(left.uri, right.uri));
  }

  function factsOf(uri: string): FileFacts | null {
    return files.get(fileKey(uri))?.facts ?? null;
  }

  /** Names that some file holds. */
  function usesOf(uri: string): readonly string[] {
    const used = new Set(factsOf(uri)?.units.flatMap(({ uses }) => uses));
    return [...used].filter((name) => holders.has(name));
  }

  function filesOf(name: string, asking: string, libraries: readonly string[]): readonly string[] {
    const holding = [...(holders.get(name)?.values() ?? [])];
    const ranked = holding.map((uri) => ({ uri, rank: rankOf(uri, asking, libraries) }));
    return ranked
      .sort((left, right) => left.rank - right.rank || compareText(left.uri, right.uri))
      .map(({ uri }) => uri);
  }

  const units = () => sorted().flatMap(({ facts, uri }) => facts.units.map((unit) => ({ uri, unit })));

  return {
    put(uri, facts) {
      const key = fileKey(uri);
      const before = namesIn(files.get(key)?.facts ?? null);
      const after = namesIn(facts);
      for (const name of before) letGo(holders, name, key);
      for (const name of after) holders.set(name, (holders.get(name) ?? new Map()).set(key, uri));
      if (facts === null) files.delete(key);
      else files.set(key, { uri, facts });
      return [...before, ...after].filter((name) => before.has(name) !== after.has(name));
    },
    uris: () => sorted().map(({ uri }) => uri),
    units,
    macros: () => sorted().flatMap(({ facts, uri }) => facts.macros.map((macro) => ({ uri, macro }))),
    filesOf,
    filesBelow(uris, { libraries, most, onTheWay }) {
      const needed: NeededFile[] = [];
      const waiting = [...uris];
      const held = new Set(uris.flatMap((uri) => [...namesIn(factsOf(uri))]));
      for (let next = 0; next < waiting.length && needed.length < most; next += 1) {
        const asking = waiting[next];
        const matters = (name: string) => next < uris.length || onTheWay === null || onTheWay.has(name);
        for (const name of usesOf(asking).filter(matters)) {
          const [uri, ...others] = held.has(name) ? [] : filesOf(name, asking, libraries);
          if (uri === undefined) continue;
          needed.push({ uri, name, asking, others: others.length });
          waiting.push(uri);
          for (const each of namesIn(factsOf(uri))) held.add(each);
        }
      }
      return needed;
    },
    unitsAbove: (names) => above(units(), names),
  };
}

function letGo(holders: Map<string, Map<string, string>>, name: string, key: string): void {
  holders.get(name)?.delete(key);
  if (holders.get(name)?.size === 0) holders.delete(name);
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
  const users = new Map<string, FoundUnit[]>();
  for (const each of units) {
    for (const name of each.unit.uses) {
      const known = users.get(name);
      if (known === undefined) users.set(name, [each]);
      else known.push(each);
    }
  }
  const found = new Set<FoundUnit>();
  const waiting = [...names];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    for (const each of users.get(name) ?? []) {
      if (found.has(each) || each.unit.name === name) continue;
      found.add(each);
      waiting.push(each.unit.name);
    }
  }
  return units.filter((each) => found.has(each));
}
