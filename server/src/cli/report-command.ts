// `foretick report FILE…`: the whole report as text, JSON or a review in Markdown, or its findings as SARIF.

import type { Report } from '../report/report';
import { writeJson } from '../report/write-json';
import { writeMarkdown } from '../report/write-markdown';
import { writeSarif } from '../report/write-sarif';
import type { Study } from '../report/study';
import { writeText } from '../report/write-text';
import type { CommonOptions, WhatIfOption } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import { answered } from './answered';
import { statesMarkdown } from './states-markdown';
import type { Outcome, World } from './world';

export interface ReportOptions extends CommonOptions, WhatIfOption {
  readonly format: keyof typeof writers;
}

const writers = {
  text: writeText,
  json: writeJson,
  markdown: writeMarkdown,
  sarif: writeSarif,
} satisfies Record<string, (report: Report) => string>;

export const reportFormats = Object.keys(writers);

export async function runReport(world: World, files: readonly string[], options: ReportOptions): Promise<Outcome> {
  const opened = await openStudy(world, files, options);
  const report = answered(runToEnd(opened.report()));
  return {
    output: options.format === 'markdown' ? reviewOf(opened, report) : writers[options.format](report),
    exitCode: exitCodeOf(report.findings, options.failOn),
  };
}

function reviewOf(opened: Study, report: Report): string {
  return writeMarkdown(report, runToEnd(opened.states()).map(statesMarkdown));
}
