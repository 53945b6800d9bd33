// Reads files that are not open: those of this machine's disk itself, others through the client, where it can.

import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { FileReply, FileRequest } from '../panel-messages';

/** null where the client reads no files. */
export type AskClient = ((request: FileRequest) => Promise<FileReply>) | null;

/** Null where there is no such file or it cannot be read. Bytes that are not UTF-8 become U+FFFD. */
export async function readAnyFile(uri: string, askClient: AskClient): Promise<string | null> {
  try {
    if (uri.startsWith('file:')) return new TextDecoder().decode(await readFile(fileURLToPath(uri)));
    return askClient === null ? null : (await askClient({ uri })).text;
  } catch {
    return null;
  }
}
