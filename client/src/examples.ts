// Opens a bundled example as a new document: it can be typed into at once, and the installed file stays as it came.

import { type TextDocument, Uri, window, workspace } from 'vscode';

/** Asks which one where `name` is no example's file name. Null where the person chose none. */
export async function openExample(extensionUri: Uri, name: unknown): Promise<TextDocument | null> {
  const folder = Uri.joinPath(extensionUri, 'examples');
  const names = (await workspace.fs.readDirectory(folder)).map(([file]) => file).filter(isVerilog);
  const chosen = names.find((each) => each === name) ?? (await chooseExample(folder, names));
  if (chosen === null) return null;
  const content = await readText(Uri.joinPath(folder, chosen));
  return workspace.openTextDocument({ language: 'verilog', content });
}

async function chooseExample(folder: Uri, names: readonly string[]): Promise<string | null> {
  const items = await Promise.all(
    names.map(async (label) => ({ label, detail: firstComment(await readText(Uri.joinPath(folder, label))) })),
  );
  const chosen = await window.showQuickPick(items, { title: 'Foretick: Open Example', matchOnDetail: true });
  return chosen?.label ?? null;
}

function isVerilog(name: string): boolean {
  return /\.s?v$/.test(name);
}

/** The first paragraph of the comment that an example opens with. */
function firstComment(text: string): string {
  const lines = text.split('\n');
  const end = lines.findIndex((line) => !/^\/\/ \S/.test(line));
  return lines
    .slice(0, end)
    .map((line) => line.slice('// '.length).trim())
    .join(' ');
}

async function readText(file: Uri): Promise<string> {
  return new TextDecoder().decode(await workspace.fs.readFile(file));
}
