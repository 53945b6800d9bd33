// `foretick report FILE…`: the whole report, as text or JSON.

import { writeJson } from '../report/write-json';
import { writeText } from '../report/write-text';
import type { CommonOptions } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface ReportOptions extends CommonOptions {
  readonly format: 'text' | 'json';
}

export async function runReport(world: World, files: readonly string[], options: ReportOptions): Promise<Outcome> {
  const opened = await openStudy(world, files, options);
  const report = runToEnd(opened.report());
  return {
    output: options.format === 'json' ? writeJson(report) : writeText(report),
    exitCode: exitCodeOf(report.findings, options.failOn),
  };
}
