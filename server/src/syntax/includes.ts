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

/** Paths to try, in order. `name` is as written; an absolute one has one place only. */
export function includeCandidates(asking: string, name: string, folders: readonly string[]): readonly string[] {
  const written = name.replaceAll('\\', '/');
  if (written.startsWith('/') || /^[A-Za-z]:\//.test(written)) return [normalized(written)];
  const beside = asking.includes('/') ? asking.slice(0, asking.lastIndexOf('/') + 1) : '';
  const places = [beside, ...folders.map((folder) => (folder === '' || folder.endsWith('/') ? folder : `${folder}/`))];
  return [...new Set(places.map((place) => normalized(place + written)))];
}

/** Without `.` and with `..` taken away where a folder stands before it. */
function normalized(path: string): string {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '.' || (part === '' && parts.length > 0)) continue;
    if (part === '..' && parts.length > 0 && parts[parts.length - 1] !== '..' && parts[parts.length - 1] !== '')
      parts.pop();
    else parts.push(part);
  }
  return parts.join('/');
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
