// `foretick compare A B`: what B has gained, lost or altered against A. Each is a Verilog file, studied here, or a report
// that was written before with `--format json`. Exit 1 where B has a finding to fail on that A has not.

import path from 'node:path';
import { checkShape } from '../report/check-shape';
import { compareReports } from '../report/compare';
import type { Comparison } from '../report/comparison';
import { refuse } from '../report/refusal';
import type { Report } from '../report/report';
import { reportShape } from '../report/report-shape';
import { writeComparisonJson, writeComparisonText } from '../report/write-comparison';
import type { CommonOptions } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface CompareOptions extends CommonOptions {
  readonly format: 'text' | 'json';
}

export async function runCompare(
  world: World,
  before: string,
  after: string,
  options: CompareOptions,
): Promise<Outcome> {
  const [first, second] = [await reportOf(world, before, options), await reportOf(world, after, options)];
  const comparison = compareReports(first, second);
  return {
    output:
      options.format === 'json' ? writeComparisonJson(comparison) : writeComparisonText(comparison, before, after),
    exitCode: exitCodeOf(gainedFindings(comparison, second), options.failOn),
  };
}

async function reportOf(world: World, file: string, options: CompareOptions): Promise<Report> {
  if (file.endsWith('.json')) return readReport(world, file);
  return runToEnd((await openStudy(world, [file], options)).report());
}

function readReport(world: World, file: string): Report {
  const text = world.readText(path.resolve(world.currentFolder, file)) ?? refuse(`${file} cannot be read`);
  const value = parse(text, file);
  const [wrong] = checkShape(reportShape, value, 'the report');
  if (wrong !== undefined) refuse(`${file} is no report of this program: ${wrong}`);
  return value as Report;
}

function parse(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return refuse(`${file} is no JSON`);
  }
}

/** Those of the second report that the first has not, or had as something lighter. */
function gainedFindings({ changes }: Comparison, { findings }: Report): Report['findings'] {
  const changed = new Set(
    changes
      .filter(({ kind, what }) => kind === 'finding' && what !== 'lost')
      .map(({ name }) => name.replace(/ \(\d+\)$/, '')),
  );
  return findings.filter(({ id, signals }) => changed.has([id, ...signals].join(' ')));
}
