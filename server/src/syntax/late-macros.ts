// Macros that are used before their `define is read: the complaint names the place of the definition. Only when all files
// have been read is it known that there is one.

import type { Complaint } from '../text/complaint';
import type { SourceFile } from '../text/source';
import type { DefinitionAt } from './expansion';
import { type Reason, readingReasons } from './reasons';

export function withDefinitionsLater(
  complaints: readonly Complaint[],
  definitions: ReadonlyMap<string, DefinitionAt>,
  files: readonly SourceFile[],
): readonly Complaint[] {
  if (definitions.size === 0) return complaints;
  return complaints.map((complaint) => {
    const at = complaint.reason === unknown ? definitions.get(String(complaint.args.name)) : undefined;
    if (at === undefined) return complaint;
    const args = { ...complaint.args, path: files[at.file].path, line: at.line };
    return { ...complaint, id: readingReasons[late], reason: late, args };
  });
}

const unknown: Reason = 'unknown-macro';
const late = 'late-macro' satisfies Reason;
