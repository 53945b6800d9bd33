// Finds and reads files for the server through the editor's file system, so that includes and project files are found in remote and
// virtual workspaces too. Text that is open and not yet saved is the server's own business: it hears of it.

import { RelativePattern, Uri, workspace } from 'vscode';
import type { FindFilesReply, FindFilesRequest } from '../../server/src/editor/file-messages';
import type { FileReply, FileRequest } from '../../server/src/editor/panel-messages';

export async function readWorkspaceFile({ uri }: FileRequest): Promise<FileReply> {
  try {
    return { text: new TextDecoder().decode(await workspace.fs.readFile(Uri.parse(uri))) };
  } catch {
    return { text: null };
  }
}

/** Without what a person has excluded from the editor's files. */
export async function findWorkspaceFiles({ extensions, folder, most }: FindFilesRequest): Promise<FindFilesReply> {
  const pattern = new RelativePattern(Uri.parse(folder), `**/*.{${extensions.join(',')}}`);
  const files = await workspace.findFiles(pattern, undefined, most + 1);
  return { files: files.slice(0, most).map((uri) => uri.toString()), isCut: files.length > most };
}
