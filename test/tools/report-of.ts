// From Verilog text to what the tool says of it: the one way in which circuit tests call the core.

import type { Account } from '../../server/src/explain/account';
import { findBits } from '../../server/src/explain/find-bits';
import { levelAt } from '../../server/src/predict/wave-query';
import { askedDump } from '../../server/src/report/dump-drive';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject, parseProject } from '../../server/src/report/project';
import type { Report } from '../../server/src/report/report';
import { type Study, study } from '../../server/src/report/study';
import type { NotedFile } from './notes';
import { readyParser } from './parser';

export interface ReportOptions {
  readonly top?: string | undefined;
  readonly delays?: string | undefined;
  readonly start?: '0' | '1' | 'x' | undefined;
  /** The text of `foretick.json`. */
  readonly project?: string | undefined;
  /** Data files and dumps at hand, beside the design. */
  readonly provided?: readonly NotedFile[];
  readonly limits?: Readonly<Record<string, number>>;
  readonly parameters?: Readonly<Record<string, string>>;
  readonly complete?: boolean;
}

export async function studyOf(files: readonly NotedFile[], options: ReportOptions = {}): Promise<Study> {
  const project = options.project === undefined ? noProject : parseProject(options.project, 'foretick.json');
  const settings = {
    ...noSettings,
    top: options.top ?? null,
    delays: options.delays ?? null,
    start: options.start ?? null,
    limits: options.limits ?? {},
    parameters: options.parameters ?? {},
    complete: options.complete ?? false,
  };
  const dump = askedDump(project, '');
  const { provided = [] } = options;
  const input = { files, provided, includeFolders: [], dump, options: optionsFrom(project, settings) };
  return study(input, await readyParser());
}

export async function reportOf(files: readonly NotedFile[], options: ReportOptions = {}): Promise<Report> {
  return toEnd((await studyOf(files, options)).report());
}

/** One signal's wave: digits, most significant first. */
export interface Trace {
  readonly changes: readonly { readonly at: number; readonly value: string }[];
  /** After everything that happens at that instant, ps. */
  at(ps: number): string;
}

/** The waves before `until` (ps), by full name of a signal or bit. */
export async function wavesOf(
  files: readonly NotedFile[],
  until: number,
  options: ReportOptions = {},
): Promise<(name: string) => Trace> {
  const opened = await studyOf(files, options);
  const design = toEnd(opened.design());
  const waves = toEnd(opened.waves(until));
  if (design === null || waves === null) throw new Error('there is no design');
  return (name) => {
    const bits = findBits(design.netlist, name);
    if (bits === null) throw new Error(`no signal is called ${name}`);
    const at = (ps: number) => bits.map(({ bit }) => '01zx'[levelAt(waves, bit, ps, 'after')]).join('');
    const instants = new Set(
      bits.flatMap(({ bit }) => Array.from(waves.changesOf(bit), (change) => waves.changes.time[change])),
    );
    return { changes: [...instants].sort((a, b) => a - b).map((ps) => ({ at: ps, value: at(ps) })), at };
  };
}

/** The value of a signal at an instant, ps. */
export async function valueAt(
  files: readonly NotedFile[],
  name: string,
  ps: number,
  options: ReportOptions = {},
): Promise<string> {
  return (await wavesOf(files, ps + 1, options))(name).at(ps);
}

/** Why a signal changed at an instant, ps, or did not: one account per bit. */
export async function accountsOf(
  files: readonly NotedFile[],
  name: string,
  ps: number,
  options: ReportOptions = {},
): Promise<readonly Account[]> {
  const accounts = toEnd((await studyOf(files, options)).accounts(name, ps));
  if (accounts === null) throw new Error(`no signal is called ${name}`);
  return accounts;
}

export function toEnd<Result>(stage: Generator<void, Result>): Result {
  for (;;) {
    const turn = stage.next();
    if (turn.done === true) return turn.value;
  }
}
