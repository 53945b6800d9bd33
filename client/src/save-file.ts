// Writes what is taken along of a preview into a file that the person names, through the editor's file system, so that it
// works in remote and virtual workspaces.

import { Uri, window, workspace } from 'vscode';
import type { Drawing, DrawingForm, FileForm } from '../../server/src/editor/panel-messages';

/** By the ending of the file: what the save dialog calls it. */
export const formNames: Readonly<Record<DrawingForm | FileForm, string>> = {
  svg: 'drawing as SVG',
  png: 'drawing as PNG',
  vcd: 'value change dump of the run',
  md: 'review in Markdown',
  json: 'report as JSON',
  sarif: 'findings as SARIF',
};

interface Named {
  readonly suggestedName: string;
}

/** `document` is the one that the drawing is of: the file is offered beside it. */
export function saveDrawing(document: Uri, { drawing, suggestedName }: Named & { drawing: Drawing }): Promise<void> {
  const { content, form } = drawing;
  const bytes = form === 'svg' ? new TextEncoder().encode(content) : Buffer.from(content, 'base64');
  return save(document, { bytes, form, suggestedName });
}

export function saveText(document: Uri, form: FileForm, { suggestedName, text }: Named & { text: string }) {
  return save(document, { bytes: new TextEncoder().encode(text), form, suggestedName });
}

interface Saved extends Named {
  readonly form: DrawingForm | FileForm;
  readonly bytes: Uint8Array;
}

async function save(document: Uri, { bytes, form, suggestedName }: Saved): Promise<void> {
  const folder = folderOf(document);
  const target = await window.showSaveDialog({
    title: `Foretick: Export ${formNames[form]}`,
    filters: { [form.toUpperCase()]: [form] },
    ...(folder === undefined ? {} : { defaultUri: Uri.joinPath(folder, suggestedName) }),
  });
  if (target === undefined) return;
  await workspace.fs.writeFile(target, bytes);
  window.setStatusBarMessage(`Foretick: ${workspace.asRelativePath(target)} written`, 5000);
}

/** A document that was never saved has no folder: then the workspace's first. */
function folderOf(document: Uri): Uri | undefined {
  if (document.scheme === 'untitled') return workspace.workspaceFolders?.[0]?.uri;
  return Uri.joinPath(document, '..');
}
