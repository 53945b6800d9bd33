// A world of files in memory for the command line, with the real parser.
import path from 'node:path';
import { runProgram, type Ending } from '../../server/src/cli/program';
import type { World } from '../../server/src/cli/world';
import { readyParser } from '../tools/parser';

export type Files = Readonly<Record<string, string>>;

const root = path.resolve('/work');

/** Paths are relative to the current folder of the world. */
export async function run(files: Files, ...args: readonly string[]): Promise<Ending & { readonly written: Files }> {
  const byPath = new Map(Object.entries(files).map(([file, text]) => [path.join(root, file), text]));
  const written: Record<string, string> = {};
  const world: World = {
    currentFolder: root,
    packageFolder: path.join(root, 'package'),
    readText: (file) => byPath.get(file) ?? null,
    writeText: (file, text) => {
      written[path.relative(root, file).replaceAll('\\', '/')] = text;
    },
    loadParser: readyParser,
    serve: () => Promise.reject(new Error('a world of files in memory serves no editor')),
  };
  return { ...(await runProgram(args, world)), written };
}
