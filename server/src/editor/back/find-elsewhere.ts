// What a study lacks and does not find beside its files or in the folders that a person states, looked for by name in the
// workspace: files that hold a unit, folders that hold an include or a memory file. Each choice among several is recorded.

import type { FoundElsewhere } from '../../report/build-found';
import type { SourceFile } from '../../text/source';
import { compareText } from '../../text/compare';
import type { NeededFile } from './workspace-index';
import { distanceBetween, fileKey, folderOf, rootOf, uriOfPath } from './uris';

export interface Finding {
  read(uri: string): Promise<string | null>;
  /** Files of the workspace that hold a unit, nearest first. */
  filesOf(name: string, asking: string, libraries: readonly string[]): Promise<readonly string[]>;
  /** Files of the workspace that these need, as far as words alone tell. */
  filesBelow(uris: readonly string[], libraries: readonly string[]): Promise<readonly NeededFile[]>;
  /** All files of the workspace that may be included or loaded. */
  listed(): Promise<readonly string[]>;
}

/** All files that the given ones need, at once: then a study seldom has to ask for more. */
export async function takeNeeded(
  { filesBelow, read }: Finding,
  uris: readonly string[],
  libraries: readonly string[],
): Promise<readonly Taken[]> {
  const needed = await filesBelow(uris, libraries);
  const texts = await Promise.all(needed.map(({ uri }) => read(uri)));
  return needed.flatMap(({ asking, name, others, uri }, place) => {
    const text = texts[place];
    const found: FoundElsewhere = { kind: 'several', name, taken: shortPath(uri, asking), others };
    return text === null ? [] : [{ file: { path: uri, text }, found: others === 0 ? [] : [found] }];
  });
}

export interface Wish {
  /** Name of a module or package. */
  readonly name: string;
  /** URI of the file that uses it. */
  readonly asking: string;
  /** Folders that a person states, each with `/` at its end. */
  readonly libraries: readonly string[];
  /** The one that the study is about. */
  readonly document: string;
  /** Keys of the files that the study has already. */
  readonly having: ReadonlySet<string>;
}

export interface Taken {
  readonly file: SourceFile;
  readonly found: readonly FoundElsewhere[];
}

/** Null where no further file holds it. Where the workspace knows none, a file of its name is looked for. */
export async function takeUnit(finding: Finding, wish: Wish): Promise<Taken | null> {
  const { asking, having, libraries, name } = wish;
  const holding = await finding.filesOf(name, asking, libraries);
  for (const uri of holding.filter((each) => !having.has(fileKey(each)))) {
    const text = await finding.read(uri);
    if (text === null) continue;
    const others = holding.length - 1;
    const found: FoundElsewhere = { kind: 'several', name, taken: shortPath(uri, asking), others };
    return { file: { path: uri, text }, found: others === 0 ? [] : [found] };
  }
  const file = holding.length > 0 ? null : await takeOfItsName(finding, wish);
  return file === null ? null : { file, found: [] };
}

/** The first library that has one gives it, then the document's own folder, then that of the file that asks. */
async function takeOfItsName({ read }: Finding, wish: Wish): Promise<SourceFile | null> {
  const { asking, document, having, libraries, name } = wish;
  const uris = [...new Set([...libraries, folderOf(document), folderOf(asking)])]
    .flatMap((folder) => (rootOf(folder + name) === null ? [] : [`${folder}${name}.v`, `${folder}${name}.sv`]))
    .filter((uri) => !having.has(fileKey(uri)));
  const texts = await Promise.all(uris.map(read));
  const first = texts.findIndex((text) => text !== null);
  return first < 0 ? null : { path: uris[first], text: texts[first] ?? '' };
}

export interface FoundFolders {
  /** Each with `/` at its end. */
  readonly folders: readonly string[];
  readonly found: readonly FoundElsewhere[];
}

/** Folders in which files that were looked for at `paths` stand. `beside`: URIs of the files that may have asked. */
export async function foldersHolding(
  { listed }: Pick<Finding, 'listed'>,
  paths: readonly string[],
  beside: readonly string[],
): Promise<FoundFolders> {
  if (paths.length === 0) return { folders: [], found: [] };
  const files = await listed();
  const wishes = new Map(paths.flatMap((path) => writtenIn(path, beside) ?? []).map((each) => [each.written, each]));
  const taken = [...wishes.values()].flatMap(({ asking, written }) => nearestFolder(files, asking, written) ?? []);
  return { folders: [...new Set(taken.map(({ folder }) => folder))], found: taken.map(({ found }) => found) };
}

/** What the file in `beside` wrote that was looked for at `path`. */
function writtenIn(
  path: string,
  beside: readonly string[],
): { readonly written: string; readonly asking: string } | null {
  const uri = uriOfPath(path, beside[0] ?? '');
  if (uri === null) return null;
  const above = beside.filter((each) => uri.startsWith(folderOf(each)));
  const asking = above.sort((left, right) => folderOf(right).length - folderOf(left).length)[0];
  return asking === undefined ? null : { written: uri.slice(folderOf(asking).length), asking };
}

function nearestFolder(
  files: readonly string[],
  asking: string,
  written: string,
): { readonly folder: string; readonly found: FoundElsewhere } | null {
  const holding = files
    .filter((uri) => uri.endsWith(`/${written}`))
    .sort((left, right) => distanceBetween(asking, left) - distanceBetween(asking, right) || compareText(left, right));
  const [nearest] = holding;
  if (nearest === undefined) return null;
  const found: FoundElsewhere = {
    kind: 'folder',
    name: decoded(written),
    taken: shortPath(nearest, asking),
    others: holding.length - 1,
  };
  return { folder: nearest.slice(0, nearest.length - written.length), found };
}

/** From the last folder that both files stand in. */
function shortPath(uri: string, near: string): string {
  const parts = decoded(uri).split('/');
  const folders = decoded(folderOf(near)).split('/');
  const split = parts.findIndex((part, index) => part !== folders[index]);
  return parts.slice(Math.max(0, split)).join('/');
}

function decoded(uri: string): string {
  return fileKey(uri);
}
