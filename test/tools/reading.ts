// Reads source text for tests, to the end, with default settings.

import { limitDefaults } from '../../server/src/budget';
import { readFiles, type ReadOptions, type Reading } from '../../server/src/syntax/read';
import type { ModuleTable } from '../../server/src/syntax/tables';
import type { SourceFile } from '../../server/src/text/source';
import { readyParser } from './parser';

export const plainOptions: ReadOptions = { defines: {}, includeFolders: [], limits: limitDefaults, provided: [] };

export async function readSources(files: readonly SourceFile[], options: Partial<ReadOptions> = {}): Promise<Reading> {
  const reading = readFiles(files, { ...plainOptions, ...options }, await readyParser());
  for (;;) {
    const step = reading.next();
    if (step.done) return step.value;
  }
}

export function readText(text: string, options: Partial<ReadOptions> = {}): Promise<Reading> {
  return readSources([{ path: 'test.v', text }], options);
}

/** The first module of the text. */
export async function moduleOf(text: string): Promise<ModuleTable> {
  const reading = await readText(text);
  for (const { table } of reading.units) if (table.kind === 'module') return table;
  throw new Error(`no module in: ${text}`);
}
