// The options that every command takes: how they are written, and what they come to. A value that cannot be meant is
// refused by the argument's name.

import { type Command, InvalidArgumentError, Option } from 'commander';
import { noSettings, type Settings } from '../report/options';
import { parseWhatIf } from '../report/what-if';
import type { Severity } from './exit-code';

/** As commander hands them over: absent where not given. */
export interface CommonOptions {
  readonly top?: string;
  readonly set?: readonly Pair[];
  readonly delays?: string;
  readonly start?: '0' | '1' | 'x';
  readonly include?: readonly string[];
  readonly define?: readonly Pair[];
  readonly project?: string;
  readonly limit?: readonly Pair[];
  readonly complete?: boolean;
  readonly failOn: Severity | 'never';
}

/** Of the commands that answer one. */
export interface WhatIfOption {
  readonly whatIf?: readonly string[];
}

export type Pair = readonly [name: string, value: string];

export function addCommonOptions(command: Command): Command {
  return command
    .option('--top <name>', 'the module that is the whole design')
    .option('--set <parameter=value>', 'set a parameter of the top', collectPair)
    .option('--delays <name>', 'delay set (default: unit)')
    .addOption(
      new Option('--start <value>', 'what registers hold at first where the text does not say (default: 0)').choices([
        '0',
        '1',
        'x',
      ]),
    )
    .option('--include <folder>', 'look for included files here', collect)
    .option('--define <name[=text]>', 'define a macro', collectDefine)
    .option('--project <file>', 'project file, or none (default: the nearest foretick.json)')
    .option('--limit <name=number>', 'how much work one construct may take', collectLimit)
    .option('--complete', 'shorten no list')
    .addOption(
      new Option('--fail-on <severity>', 'exit 1 where a finding is at least this')
        .choices(['error', 'warning', 'information', 'never'])
        .default('error'),
    );
}

/** One each time it is given. */
export function addWhatIf(command: Command): Command {
  return command.option(
    '--what-if <change>',
    'also tell how it would be with NAME edge rising|falling, NAME start VALUE, NAME clock SIGNAL, NAME delays SET, delays SET, NAME held VALUE',
    collect,
  );
}

export function settingsOf(options: CommonOptions & WhatIfOption): Settings {
  return {
    ...noSettings,
    top: options.top ?? null,
    delays: options.delays ?? null,
    start: options.start ?? null,
    parameters: Object.fromEntries(options.set ?? []),
    defines: Object.fromEntries(options.define ?? []),
    limits: Object.fromEntries((options.limit ?? []).map(([name, value]) => [name, Number(value)])),
    complete: options.complete ?? false,
    whatIf: (options.whatIf ?? []).map(parseWhatIf),
  };
}

function collect(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

function collectPair(value: string, before: readonly Pair[] = []): readonly Pair[] {
  const pair = /^([^=]+)=(.*)$/s.exec(value);
  if (pair === null) throw new InvalidArgumentError('It must be written NAME=VALUE.');
  return [...before, [pair[1], pair[2]]];
}

/** A macro without a text is defined as empty, as by `define NAME. */
function collectDefine(value: string, before: readonly Pair[] = []): readonly Pair[] {
  return value.includes('=') ? collectPair(value, before) : [...before, [value, '']];
}

function collectLimit(value: string, before: readonly Pair[] = []): readonly Pair[] {
  const pairs = collectPair(value, before);
  if (/=[0-9]{1,15}$/.test(value)) return pairs;
  throw new InvalidArgumentError('It must be written NAME=N with a whole number.');
}
