// `foretick account FILE… --signal S --at PS`: why a signal changed at an instant, or why an edge changed nothing.

import { refuse } from '../report/refusal';
import { writeAccountsJson, writeAccountsText } from '../report/write-accounts';
import type { CommonOptions } from './common-options';
import { exitCodeOf } from './exit-code';
import { openStudy } from './inputs';
import { runToEnd } from './run-to-end';
import type { Outcome, World } from './world';

export interface AccountOptions extends CommonOptions {
  readonly signal: string;
  readonly at: number;
  readonly format: 'text' | 'json';
}

export async function runAccount(world: World, files: readonly string[], options: AccountOptions): Promise<Outcome> {
  const opened = await openStudy(world, files, options);
  const report = runToEnd(opened.report());
  const accounts = runToEnd(opened.accounts(options.signal, options.at));
  if (accounts === null && report.memories.some(({ name }) => name === nameOnly(options.signal)))
    return refuse(`${nameOnly(options.signal)} is a memory: ask for a signal that is read from it`);
  if (accounts === null)
    return refuse(
      noSignal(
        options.signal,
        report.top,
        report.signals.map(({ name }) => name),
      ),
    );
  const exitCode = exitCodeOf(report.findings, options.failOn);
  const write = options.format === 'json' ? writeAccountsJson : writeAccountsText;
  return { output: write(accounts), exitCode };
}

/** Without an index. */
function nameOnly(signal: string): string {
  return signal.replace(/(\[[^[\]]*\])+$/, '');
}

function noSignal(signal: string, top: string | null, names: readonly string[]): string {
  if (top === null) return 'no module could be chosen as top, so there is no signal to tell of';
  const known = names.length <= 12 ? `: ${names.join(', ')}` : '';
  return `no signal of ${top} is called ${signal}${known}`;
}
