// `foretick cure FILE… --finding ID --at FILE:LINE [--write]`: what takes a finding away, tried and told; written into the
// files only on request, and only where what was tried holds.

import path from 'node:path';
import type { Cure } from '../cures/cure';
import { withEdits } from '../cures/edits';
import { type CuredFinding, curesAt } from '../cures/cures-at';
import { refuse } from '../report/refusal';
import type { Study } from '../report/study';
import { layOut, type Section } from '../report/text-layout';
import type { CommonOptions } from './common-options';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface CureOptions extends CommonOptions {
  readonly finding: string;
  /** `FILE:LINE` as the report prints it. */
  readonly at: string;
  readonly write?: boolean;
  /** What the cure asks is wanted. */
  readonly agree?: boolean;
  /** Which of those that hold, from one. */
  readonly pick?: string;
}

export async function runCure(world: World, files: readonly string[], options: CureOptions): Promise<Outcome> {
  const opened = await openStudy(world, files, options);
  const where = `${options.finding} at ${options.at}`;
  const found = runToEnd(curesAt(opened, await world.loadParser(), findingOf(options)));
  if (found === null) refuse(`no ${options.finding} stands at ${options.at}`);
  const holding = found.filter(({ proof }) => proof.holds);
  const cure = holding[pickedOf(options, holding.length) - 1];
  if (cure === undefined) return { output: layOut(withoutCure(where, found)), exitCode: 1 };
  const isAsking = cure.asks.length > 0 && options.agree !== true;
  const isWritten = options.write === true && !isAsking;
  if (isWritten) writeFiles(world, opened, cure);
  return {
    output: layOut([
      { title: cure.title, lines: linesOf(cure) },
      { title: isWritten ? 'written' : unwrittenTitle(options, isAsking), lines: editLines(cure) },
      ...otherWays(holding, cure),
    ]),
    exitCode: options.write === true && isAsking ? 1 : 0,
  };
}

function pickedOf({ pick = '1' }: CureOptions, count: number): number {
  if (!/^[1-9][0-9]*$/.test(pick)) refuse(`--pick ${pick} is no number from 1`);
  if (count > 0 && Number(pick) > count)
    refuse(`--pick ${pick}: there ${count === 1 ? 'is 1 cure' : `are ${count} cures`}`);
  return Number(pick);
}

function otherWays(holding: readonly Cure[], cure: Cure): readonly Section[] {
  const others = holding.flatMap((one, index) => (one === cure ? [] : [`--pick ${index + 1}: ${one.title}`]));
  return others.length === 0 ? [] : [{ title: 'another way', lines: others }];
}

function unwrittenTitle({ write }: CureOptions, isAsking: boolean): string {
  if (!isAsking) return 'would be written with --write';
  return write === true
    ? 'not written: add --agree if what it asks is wanted'
    : 'would be written with --write --agree, if what it asks is wanted';
}

function findingOf({ at, finding }: CureOptions): CuredFinding {
  const place = /^(.+):(\d+)(?::\d+)?$/.exec(at);
  if (place === null) refuse(`${at} is no place: it must be written FILE:LINE`);
  return { id: finding, file: place[1], line: Number(place[2]) };
}

function withoutCure(where: string, tried: readonly Cure[]): readonly Section[] {
  const title = `no cure for ${where}`;
  if (tried.length === 0) return [{ title, lines: ['the text is not of a form that is known how to rewrite'] }];
  return [{ title, lines: [] }, ...tried.map((one) => ({ title: `does not hold: ${one.title}`, lines: linesOf(one) }))];
}

function linesOf({ asks, differs, proof }: Cure): readonly string[] {
  return [
    ...proof.says.map((said) => `tried: ${said}`),
    ...differs.map((difference) => `differs: ${difference}`),
    ...asks.map((asked) => `asks: ${asked}`),
  ];
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
