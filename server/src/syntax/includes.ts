// Where an include may be found: first beside the file that asks, then in each include folder. The standard
// leaves the places to the tool (IEEE 1364-2005 19.5). Paths are text with `/`; no folder is looked into.

import type { SourceFile } from '../text/source';

/** The study's files: those given, then provided ones in the order in which they were first included. */
export interface FileShelf {
  readonly files: readonly SourceFile[];
  /** Index of the file at a normalized path, which counts as used from then on; null where none is at hand. */
  find(path: string): number | null;
}

/** Where two files have one path, the first holds. */
export function shelve(given: readonly SourceFile[], provided: readonly SourceFile[]): FileShelf {
  const files = [...given];
  const waiting = byPath(provided, (file) => file);
  const indices = byPath(given, (_file, index) => index);
  return {
    files,
    find(path) {
      const index = indices.get(path);
      const file = waiting.get(path);
      if (index !== undefined || file === undefined) return index ?? null;
      indices.set(path, files.push(file) - 1);
      return files.length - 1;
    },
  };
}

/** Beside the file that asks for "name", in the include folders for <name>: the other comes second (IEEE 1800-2017 22.4). */
export type FirstPlace = 'beside' | 'folders';

/** Paths to try, in order. `name` is as written; an absolute one has one place only. */
export function includeCandidates(
  asking: string,
  name: string,
  folders: readonly string[],
  first: FirstPlace = 'beside',
): readonly string[] {
  const written = name.replaceAll('\\', '/');
  const root = rootOf(asking);
  if (written.startsWith('/')) return [normalized(root + written)];
  if (/^[A-Za-z]:\//.test(written)) return [normalized(root === '' ? written : `${root}/${written}`)];
  const own = asking.includes('/') ? asking.slice(0, asking.lastIndexOf('/') + 1) : '';
  const others = folders.map((folder) => (folder === '' || folder.endsWith('/') ? folder : `${folder}/`));
  const places = first === 'beside' ? [own, ...others] : [...others, own];
  return [...new Set(places.map((place) => normalized(place + written)))];
}

/** Scheme and authority of a URI, which are no folders; empty for a plain path. */
function rootOf(path: string): string {
  return /^[A-Za-z][A-Za-z0-9+.-]*:\/\/[^/]*/.exec(path)?.[0] ?? '';
}

/** Without `.` and with `..` taken away where a folder stands before it. */
function normalized(path: string): string {
  const root = rootOf(path);
  const parts: string[] = [];
  for (const part of path.slice(root.length).split('/')) {
    if (part === '.' || (part === '' && parts.length > 0)) continue;
    if (part === '..' && parts.length > 0 && parts[parts.length - 1] !== '..' && parts[parts.length - 1] !== '')
      parts.pop();
    else parts.push(part);
  }
  return root + parts.join('/');
}

function byPath<Value>(
  files: readonly SourceFile[],
  valueFor: (file: SourceFile, index: number) => Value,
): Map<string, Value> {
  const paths = new Map<string, Value>();
  for (const [index, file] of files.entries()) {
    const path = normalized(file.path);
    if (!paths.has(path)) paths.set(path, valueFor(file, index));
  }
  return paths;
}
