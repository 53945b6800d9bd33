// Whether the files that an edit of the server's would change can be written: for those of this machine's disk. Others the
// client itself refuses.

import { constants } from 'node:fs';
import { access } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { WorkspaceEdit } from 'vscode-languageserver';

/** The first file that is there and cannot be written; null where there is none. Never rejects. */
export async function firstReadOnly(edit: WorkspaceEdit): Promise<string | null> {
  for (const uri of Object.keys(edit.changes ?? {})) if (uri.startsWith('file:') && (await isReadOnly(uri))) return uri;
  return null;
}

/** What is not there yet is an open document that was never saved. */
async function isReadOnly(uri: string): Promise<boolean> {
  const path = fileURLToPath(uri);
  try {
    await access(path, constants.F_OK);
  } catch {
    return false;
  }
  try {
    await access(path, constants.W_OK);
    return false;
  } catch {
    return true;
  }
}
