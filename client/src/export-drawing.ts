// Writes the picture of the panel into a file that the person names, through the editor's file system, so that it works
// in remote and virtual workspaces.

import { Uri, window, workspace } from 'vscode';

export interface Drawing {
  readonly suggestedName: string;
  readonly svg: string;
}

/** `document` is the one that the drawing is of: the file is offered beside it. */
export async function exportDrawing(document: Uri, { suggestedName, svg }: Drawing): Promise<void> {
  const folder = folderOf(document);
  const target = await window.showSaveDialog({
    title: 'Foretick: Export Drawing as SVG',
    filters: { SVG: ['svg'] },
    ...(folder === undefined ? {} : { defaultUri: Uri.joinPath(folder, suggestedName) }),
  });
  if (target === undefined) return;
  await workspace.fs.writeFile(target, new TextEncoder().encode(svg));
  window.setStatusBarMessage(`Foretick: ${workspace.asRelativePath(target)} written`, 5000);
}

/** A document that was never saved has no folder: then the workspace's first. */
function folderOf(document: Uri): Uri | undefined {
  if (document.scheme === 'untitled') return workspace.workspaceFolders?.[0]?.uri;
  return Uri.joinPath(document, '..');
}
