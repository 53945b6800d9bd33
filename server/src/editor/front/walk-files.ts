// Lists files of this machine's disk for the index of the workspace, folder by folder. Hidden folders and those of packages
// are passed over, and links to folders are not followed: they may lead in a circle.

import type { Dirent } from 'node:fs';
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { FindFilesReply, FindFilesRequest } from '../file-messages';

/** Folders looked into for one request. */
const mostFolders = 20_000;

/** A folder that cannot be read holds nothing. Near files come first, then by name. */
export async function walkFiles({ extensions, folder, most }: FindFilesRequest): Promise<FindFilesReply> {
  const wanted = new Set(extensions.map((extension) => `.${extension}`));
  const waiting = [fileURLToPath(folder)];
  const files: string[] = [];
  for (let next = 0; next < waiting.length; next += 1) {
    if (next >= mostFolders) return { files, isCut: true };
    for (const entry of await entriesOf(waiting[next])) {
      const place = path.join(waiting[next], entry.name);
      if (entry.isDirectory()) waiting.push(...(isPassedOver(entry.name) ? [] : [place]));
      else if (wanted.has(path.extname(entry.name).toLowerCase())) files.push(pathToFileURL(place).href);
      if (files.length > most) return { files: files.slice(0, most), isCut: true };
    }
  }
  return { files, isCut: false };
}

async function entriesOf(folder: string): Promise<readonly Dirent[]> {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries.sort((left, right) => (left.name < right.name ? -1 : 1));
  } catch {
    return [];
  }
}

function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}
