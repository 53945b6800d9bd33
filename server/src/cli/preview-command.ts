// `foretick preview [FILE…]`: the run with its causes, as text or as the data that the panel draws. Without a file it shows
// an example of the package.

import path from 'node:path';
import { refuse } from '../report/refusal';
import { writePreviewText } from '../report/write-preview-text';
import type { CommonOptions } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface PreviewOptions extends CommonOptions {
  readonly format: 'text' | 'json';
}

const example = 'examples/ripple-counter.v';

export async function runPreview(world: World, files: readonly string[], options: PreviewOptions): Promise<Outcome> {
  const opened = files.length > 0 ? await openStudy(world, files, options) : await openExample(world, options);
  const report = runToEnd(opened.report());
  const preview = runToEnd(opened.preview());
  const exitCode = exitCodeOf(report.findings, options.failOn);
  if (options.format === 'json') return { output: `${JSON.stringify(preview, null, 2)}\n`, exitCode };
  return { output: writePreviewText(preview), exitCode };
}

/** Read as if one stood in the package's folder, so that its path is the same on every machine. */
function openExample(world: World, options: CommonOptions) {
  const text = world.readText(path.join(world.packageFolder, example));
  if (text === null) return refuse('the example is not installed; name a file');
  return openStudy({ ...world, currentFolder: world.packageFolder }, [example], { ...options, project: 'none' });
}
