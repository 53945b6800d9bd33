// `foretick preview [FILE…]`: the run with its causes, in a format asked for. Without a format: the report as text, and the
// drawn page beside it. Without a file it shows an example of the package.

import path from 'node:path';
import type { PreviewData } from '../report/preview-data';
import { refuse } from '../report/refusal';
import type { Report } from '../report/report';
import { writePreviewText } from '../report/write-preview-text';
import { writeText } from '../report/write-text';
import type { CommonOptions, WhatIfOption } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { writeDumpFile, writePage, writePicture } from './preview-files';
import { runToEnd } from './run-to-end';
import { answered } from './answered';
import type { Outcome, World } from './world';

export interface PreviewOptions extends CommonOptions, WhatIfOption {
  readonly format?: 'text' | 'html' | 'svg' | 'json' | 'vcd';
  /** As given; files are written into it. */
  readonly out: string;
}

const example = 'examples/ripple-counter.v';

export async function runPreview(world: World, files: readonly string[], options: PreviewOptions): Promise<Outcome> {
  const opened = files.length > 0 ? await openStudy(world, files, options) : await openExample(world, options);
  const report = answered(runToEnd(opened.report()));
  const preview = runToEnd(opened.preview());
  const dump = options.format === 'vcd' ? runToEnd(opened.dump()) : '';
  return {
    output: outputOf(world, { report, preview, dump }, options),
    exitCode: exitCodeOf(report.findings, options.failOn),
  };
}

interface Shown {
  readonly report: Report;
  readonly preview: PreviewData;
  readonly dump: string;
}

/** What is printed; a file that is written is named, and last. */
function outputOf(world: World, { dump, report, preview }: Shown, { format, out }: PreviewOptions): string {
  if (format === undefined) return `${writeText(report)}\npage: ${writePage(world, out, preview)}\n`;
  switch (format) {
    case 'json':
      return `${JSON.stringify(preview)}\n`;
    case 'html':
      return `${writePage(world, out, preview)}\n`;
    case 'svg':
      return `${writePicture(world, out, preview)}\n`;
    case 'vcd':
      return `${writeDumpFile(world, out, dump)}\n`;
    case 'text':
      return writePreviewText(preview);
  }
}

/** Read as if one stood in the package's folder, so that its path is the same on every machine. */
function openExample(world: World, options: CommonOptions) {
  const text = world.readText(path.join(world.packageFolder, example));
  if (text === null) return refuse('the example is not installed; name a file');
  return openStudy({ ...world, currentFolder: world.packageFolder }, [example], { ...options, project: 'none' });
}
