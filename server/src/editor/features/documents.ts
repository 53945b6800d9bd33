// The text of a document as a study has it.

import type { Study } from '../../report/study';

/** Empty for a path that is none of the study's files. */
export function textOf({ input }: Study, path: string): string {
  return [...input.files, ...input.provided].find((file) => file.path === path)?.text ?? '';
}
