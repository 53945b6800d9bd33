// The command line: which commands there are and what they take. Runs one and says how it ended: exit 0 nothing to fail
// on, 1 something to fail on, 2 the run itself failed, with nothing on standard output and one line on standard error.

import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { Refusal } from '../report/refusal';
import { toolVersion } from '../report/version';
import { Impossible } from '../text/impossible';
import { type AccountOptions, runAccount } from './account-command';
import { addCommonOptions, addWhatIf } from './common-options';
import { type CompareOptions, runCompare } from './compare-command';
import { type CureOptions, runCure } from './cure-command';
import { type PreviewOptions, runPreview } from './preview-command';
import { type ReportOptions, reportFormats, runReport } from './report-command';
import { runServe } from './serve-command';
import type { Outcome, World } from './world';

/** What is to be written where, and the exit status. */
export interface Ending {
  readonly output: string;
  readonly complaint: string;
  readonly exitCode: 0 | 1 | 2;
}

/** `args`: without the program's own name. */
export async function runProgram(args: readonly string[], world: World): Promise<Ending> {
  const heard = { output: '', complaint: '' };
  let outcome: Outcome = { output: '', exitCode: 0 };
  const program = buildProgram((run) => {
    outcome = run;
  }, world);
  listen(program, heard);
  try {
    await program.parseAsync([...args], { from: 'user' });
    return { output: heard.output + outcome.output, complaint: '', exitCode: outcome.exitCode };
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0)
      return { output: heard.output, complaint: '', exitCode: 0 };
    return { output: '', complaint: complaintOf(error, heard.complaint), exitCode: 2 };
  }
}

type Finish = (outcome: Outcome) => void;

function buildProgram(finish: Finish, world: World): Command {
  const program = new Command('foretick')
    .description('Previews the timing of Verilog: clocks, edges, counts, and the glitches that unequal arrival makes.')
    .version(toolVersion, '--version', 'print the version')
    .helpOption('--help', 'show this help')
    .helpCommand(false);
  const command = (name: string, files: string, about: string) =>
    addCommonOptions(
      program.command(name).description(about).addArgument(new Argument(files, 'Verilog files, in order')),
    );

  addWhatIf(command('report', '<files...>', 'everything that was found out about a design'))
    .addOption(new Option('--format <format>', 'form of the report').choices(reportFormats).default('text'))
    .action(async (files: string[], options: ReportOptions) => finish(await runReport(world, files, options)));
  addWhatIf(command('preview', '[files...]', 'the waveforms with their causes (without a file: an example)'))
    .addOption(
      new Option('--format <format>', 'form of the preview (default: text, and a page)').choices([
        'text',
        'html',
        'svg',
        'json',
        'vcd',
      ]),
    )
    .option('--out <folder>', 'where pages and pictures are written', 'foretick-preview')
    .action(async (files: string[], options: PreviewOptions) => finish(await runPreview(world, files, options)));
  addCommonOptions(
    program
      .command('compare')
      .description('what a design or report has gained, lost or altered against another')
      .argument('<before>', 'a Verilog file, or a report as JSON')
      .argument('<after>', 'the same'),
  )
    .addOption(new Option('--format <format>', 'form of the comparison').choices(['text', 'json']).default('text'))
    .action(async (before: string, after: string, options: CompareOptions) =>
      finish(await runCompare(world, before, after, options)),
    );
  command('account', '<files...>', 'why a signal changed at an instant, or why an edge changed nothing')
    .requiredOption('--signal <name>', 'full name, such as q[3] or u1.done')
    .addOption(new Option('--at <ps>', 'instant in picoseconds').argParser(parseInstant).makeOptionMandatory())
    .addOption(new Option('--format <format>', 'form of the account').choices(['text', 'json']).default('text'))
    .action(async (files: string[], options: AccountOptions) => finish(await runAccount(world, files, options)));
  command('cure', '<files...>', 'what takes a finding away, tried before it is told')
    .requiredOption('--finding <id>', 'such as ripple-chain')
    .requiredOption('--at <file:line>', 'where the report tells it')
    .option('--write', 'change the files')
    .option('--agree', 'what the cure asks is wanted')
    .option('--pick <number>', 'which of several that hold', '1')
    .action(async (files: string[], options: CureOptions) => finish(await runCure(world, files, options)));
  program
    .command('serve')
    .description('the language server, for an editor that starts it')
    .addOption(new Option('--stdio', 'speak over standard input and output').makeOptionMandatory())
    .action(() => runServe(world));
  return program;
}

function parseInstant(text: string): number {
  if (/^[0-9]{1,15}$/.test(text)) return Number(text);
  throw new InvalidArgumentError('It must be a whole number of picoseconds.');
}

/** Nothing is printed until it is known how the run ends. */
function listen(program: Command, heard: { output: string; complaint: string }): void {
  for (const command of [program, ...program.commands]) {
    command.exitOverride().configureOutput({
      writeOut: (text) => {
        heard.output += text;
      },
      writeErr: (text) => {
        heard.complaint += text;
      },
    });
  }
}

/** One line, whoever said it. */
function complaintOf(error: unknown, heard: string): string {
  if (error instanceof Refusal) return `foretick: ${oneLine(error.message)}\n`;
  if (error instanceof CommanderError) return `foretick: ${oneLine(firstLine(heard) || error.message)}\n`;
  const what = error instanceof Impossible || error instanceof Error ? error.message : String(error);
  return `foretick: a mistake of this program, not of the design: ${oneLine(what)}\n`;
}

/** Commander's own complaints open with `error: `, and a program called without a command answers with its whole help. */
function firstLine(text: string): string {
  if (!text.startsWith('error: '))
    return text === '' ? '' : 'a command is missing: report, preview, compare, account, cure or serve';
  return text.slice('error: '.length);
}

function oneLine(text: string): string {
  return text.trim().replace(/\s+/g, ' ');
}
