// Whether the files that an edit of the server's would change can be written: for those of this machine's disk. Others the
// client itself refuses.

import { constants } from 'node:fs';
import { access } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { WorkspaceEdit } from 'vscode-languageserver';

/** Rejects where a file may not be used as the mode says; that of Node. */
export type Access = (path: string, mode: number) => Promise<void>;

/** The first file that is there and cannot be written; null where there is none. Never rejects. */
export async function firstReadOnly(edit: WorkspaceEdit, tryAccess: Access = access): Promise<string | null> {
  const files = Object.keys(edit.changes ?? {}).filter((uri) => uri.startsWith('file:'));
  for (const uri of files) if (await isReadOnly(fileURLToPath(uri), tryAccess)) return uri;
  return null;
}

/** What is not there yet is an open document that was never saved. */
async function isReadOnly(path: string, tryAccess: Access): Promise<boolean> {
  const may = (mode: number) => tryAccess(path, mode).then(...yesOrNo);
  return (await may(constants.F_OK)) && !(await may(constants.W_OK));
}

const yesOrNo = [() => true, () => false] as const;
