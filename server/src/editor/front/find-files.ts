// Which files a folder of the workspace holds: told by the client where it can, since it knows what a person has put aside,
// else by the disk. A folder that is neither holds nothing.

import type { FindFilesReply, FindFilesRequest } from '../file-messages';
import { walkFiles } from './walk-files';

/** null where the client lists no files. */
export type AskClientForFiles = ((request: FindFilesRequest) => Promise<FindFilesReply>) | null;

/** Never rejects. */
export async function findFiles(request: FindFilesRequest, askClient: AskClientForFiles): Promise<FindFilesReply> {
  try {
    if (askClient !== null) return await askClient(request);
    return request.folder.startsWith('file:') ? await walkFiles(request) : nothing;
  } catch {
    return nothing;
  }
}

const nothing: FindFilesReply = { files: [], isCut: false };
