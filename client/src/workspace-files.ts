// Reads files for the server through the editor's file system, so that includes and project files are found in remote and
// virtual workspaces too. Text that is open and not yet saved is the server's own business: it hears of it.

import { Uri, workspace } from 'vscode';
import type { FileReply, FileRequest } from '../../server/src/editor/panel-messages';

export async function readWorkspaceFile({ uri }: FileRequest): Promise<FileReply> {
  try {
    return { text: new TextDecoder().decode(await workspace.fs.readFile(Uri.parse(uri))) };
  } catch {
    return { text: null };
  }
}
