// The folders of the workspace as the client tells of them: when it begins, by whichever of the protocol's three ways it
// knows, and whenever they change.

import { pathToFileURL } from 'node:url';
import type { InitializeParams, WorkspaceFoldersChangeEvent } from 'vscode-languageserver';

/** URIs, as the client writes them. */
export function foldersAtFirst({ rootPath, rootUri, workspaceFolders }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  if (rootUri) return [rootUri];
  return rootPath ? [pathToFileURL(rootPath).href] : [];
}

export function foldersAfter(before: readonly string[], change: WorkspaceFoldersChangeEvent): readonly string[] {
  const removed = new Set(change.removed.map(({ uri }) => uri));
  return [...before.filter((uri) => !removed.has(uri)), ...change.added.map(({ uri }) => uri)];
}
