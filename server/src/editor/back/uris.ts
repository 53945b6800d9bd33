// Files by URI. A study only joins paths with `/`, so a URI can stand for a path in it. Addresses without folders
// (`untitled:…`) have nothing beside or above them.

/** Two URIs of one file may be written differently: clients differ in what they escape. */
export function fileKey(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}

/** Scheme and authority, such as `file://`; null where the address has no folders. */
export function rootOf(uri: string): string | null {
  return /^[A-Za-z][A-Za-z0-9+.-]*:\/\/[^/]*(?=\/)/.exec(uri)?.[0] ?? null;
}

/** Ends in `/`. */
export function folderOf(uri: string): string {
  return uri.slice(0, uri.lastIndexOf('/') + 1);
}

/** The folder of the file and every one above it, each with a `/` at its end. */
export function foldersUpward(uri: string): readonly string[] {
  const root = rootOf(uri);
  if (root === null) return [];
  const folders: string[] = [];
  for (let folder = folderOf(uri); folder.length > root.length; folder = folderOf(folder.slice(0, -1))) {
    folders.push(folder);
  }
  return folders;
}

/** A folder as a person writes it, absolute or from `base` (which ends in `/`). */
export function folderUri(base: string, written: string): string {
  const path = written.replaceAll('\\', '/');
  if (path.startsWith('/')) return `${rootOf(base) ?? ''}${path}`;
  return /^[A-Za-z]:\//.test(path) ? `${rootOf(base) ?? ''}/${path}` : base + path;
}

/** The URI behind a path that a study asks for: its own, or below the root of `near`; null where it can be none. */
export function uriOfPath(path: string, near: string): string | null {
  if (rootOf(path) !== null) return path;
  const root = rootOf(near);
  return root !== null && path.startsWith('/') ? root + path : null;
}

/** How many folders lie between two files: up to the last that both stand in, and down again. */
export function distanceBetween(from: string, to: string): number {
  const up = fileKey(folderOf(from)).split('/');
  const down = fileKey(folderOf(to)).split('/');
  let shared = 0;
  while (shared < up.length && shared < down.length && up[shared] === down[shared]) shared += 1;
  return up.length - shared + (down.length - shared);
}
