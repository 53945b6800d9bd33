// `foretick cure FILE… --finding ID --at FILE:LINE [--write]`: what takes a finding away, tried and told; written into the
// files only on request, and only where what was tried holds.

import path from 'node:path';
import { proposalsFor } from '../cures/all';
import type { Cure } from '../cures/cure';
import { withEdits } from '../cures/edits';
import { proveCure } from '../cures/prove';
import { refuse } from '../report/refusal';
import type { Study } from '../report/study';
import type { Finding } from '../hazards/finding';
import { layOut } from '../report/text-layout';
import type { CommonOptions } from './common-options';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface CureOptions extends CommonOptions {
  readonly finding: string;
  /** `FILE:LINE` as the report prints it. */
  readonly at: string;
  readonly write?: boolean;
}

export async function runCure(world: World, files: readonly string[], options: CureOptions): Promise<Outcome> {
  const opened = await openStudy(world, files, options);
  const parser = await world.loadParser();
  const finding = findingAt(opened, options) ?? refuse(`no ${options.finding} stands at ${options.at}`);
  const context = {
    reading: runToEnd(opened.reading()),
    facts: runToEnd(opened.design()) ?? refuse('there is no design'),
  };
  const cures = proposalsFor(context, finding).flatMap(
    (proposal) => runToEnd(proveCure(opened, parser, finding, proposal)) ?? [],
  );
  const [cure] = cures.filter(({ proof }) => proof.holds);
  if (cure === undefined) {
    const tried = cures.map((one) => ({ title: `does not hold: ${one.title}`, lines: linesOf(one) }));
    return {
      output: layOut([
        {
          title: `no cure for ${options.finding} at ${options.at}`,
          lines: ['this text is not of a form that is known how to rewrite'].slice(tried.length),
        },
        ...tried,
      ]),
      exitCode: 1,
    };
  }
  if (options.write === true) writeFiles(world, opened, cure);
  return {
    output: layOut([
      { title: cure.title, lines: linesOf(cure) },
      { title: options.write === true ? 'written' : 'would be written with --write', lines: editLines(cure) },
    ]),
    exitCode: 0,
  };
}

function findingAt(opened: Study, { at, finding: id }: CureOptions): Finding | undefined {
  const facts = runToEnd(opened.design());
  const places = runToEnd(opened.places());
  return facts?.hazards.findings.find((finding) => {
    const { file, line } = places.spanOf(finding.place);
    return finding.id === id && `${file}:${line}` === at;
  });
}

function linesOf({ differs, proof }: Cure): readonly string[] {
  return [...proof.says.map((said) => `tried: ${said}`), ...differs.map((difference) => `differs: ${difference}`)];
}

/** Edits from the top of each file. */
function editLines({ edits }: Cure): readonly string[] {
  return [...edits].reverse().flatMap(({ span, text }) => {
    const place = `${span.file}:${span.line}:${span.column}`;
    const isInserted = span.line === span.endLine && span.column === span.endColumn;
    return [
      `${place}  ${isInserted ? 'before' : 'instead of'} what stands there:`,
      ...text
        .trimEnd()
        .split(/\r?\n/)
        .map((line) => `  ${line}`),
    ];
  });
}

function writeFiles(world: World, opened: Study, cure: Cure): void {
  const { files, provided } = opened.input;
  for (const { path: file, text } of withEdits([...files, ...provided], cure.edits)) {
    if (cure.edits.some((edit) => edit.file === file)) world.writeText(path.resolve(world.currentFolder, file), text);
  }
}
