// Hands a study what it lacks, until it asks for nothing new that is there: includes, the files of units that it uses, files
// that memories start from. Each step is a new study, which takes from the one before what that has read.

import { askingFiles } from '../../report/asking-files';
import type { FoundElsewhere } from '../../report/build-found';
import type { StudyOptions } from '../../report/options';
import { type Study, type StudyInput, study } from '../../report/study';
import type { ModuleCompiler } from '../../cycles/compiled-module';
import type { SliceParser } from '../../syntax/slice-parser';
import type { SourceFile } from '../../text/source';
import { type Finding, foldersHolding, takeNeeded, takeUnit } from './find-elsewhere';
import { fileKey, uriOfPath } from './uris';

/** What opening a study takes; each may reject, for instance because newer text came in. */
export interface OpeningTools extends Finding {
  readonly parser: SliceParser;
  readonly compile: ModuleCompiler;
  /** Has the workspace know a folder that a project names. */
  cover(folder: string): void;
  run<Result>(stage: Generator<void, Result>): Promise<Result>;
  /** What an earlier study of the document with these options' limits has left, if there is one. */
  earlier(options: StudyOptions): Pick<StudyInput, 'previous' | 'kept'>;
}

/** A study, and the folders that its project states for units that are not given. */
export interface Lacking {
  readonly study: Study;
  readonly libraries: readonly string[];
}

/** Includes may ask for more: each round hands over what the last one asked for and is there. */
export async function provideIncludes(tools: OpeningTools, document: string, first: Study): Promise<Study> {
  const tried = new Set<string>();
  let opened = first;
  for (;;) {
    const { wanted } = await tools.run(opened.reading());
    const provided = await takeProvided(tools, document, newOf(wanted, tried));
    const wider = provided.length > 0 ? null : await withFolders(tools, opened, wanted);
    if (provided.length === 0 && wider === null) return opened;
    const { input } = opened;
    opened = wider ?? (await goOn(tools, opened, { ...input, provided: [...input.provided, ...provided] }));
  }
}

/** Looks in further folders, where the workspace has files of these names; null where it has none. */
async function withFolders(tools: OpeningTools, opened: Study, paths: readonly string[]): Promise<Study | null> {
  const { files } = await tools.run(opened.reading());
  const beside = files.map(({ path }) => path);
  const { folders, found } = await foldersHolding(tools, paths, beside);
  const { input } = opened;
  const further = folders.filter((folder) => !input.includeFolders.includes(folder));
  if (further.length === 0) return null;
  const includeFolders = [...input.includeFolders, ...further];
  return goOn(tools, opened, { ...withFound(input, found), includeFolders });
}

async function takeProvided(
  { read }: OpeningTools,
  document: string,
  paths: readonly string[],
): Promise<readonly SourceFile[]> {
  const uris = paths.flatMap((path) => uriOfPath(path, document) ?? []);
  const texts = await Promise.all(uris.map(read));
  return texts.flatMap((text, index) => (text === null ? [] : [{ path: uris[index], text }]));
}

/** With all files that it needs, as far as words alone tell. Includes may name further units. */
export async function withNeeded(
  tools: OpeningTools,
  document: string,
  { libraries, study: before }: Lacking,
): Promise<Study> {
  const { files } = await tools.run(before.reading());
  const taken = await takeNeeded(
    tools,
    files.map(({ path }) => path),
    libraries,
  );
  const further = taken.map(({ file }) => file);
  if (further.length === 0) return before;
  const input = withFound(
    await withOwnTop(tools, before),
    taken.flatMap(({ found }) => found),
  );
  return provideIncludes(tools, document, await goOn(tools, before, { ...input, files: [...input.files, ...further] }));
}

/** With what is still wanted: units, and files that memories start from. */
export async function provideRest(tools: OpeningTools, document: string, first: Lacking): Promise<Study> {
  const tried = new Set<string>();
  let opened = first.study;
  for (;;) {
    const { data, interfaces, modules, packages } = await tools.run(opened.wanted());
    const asking = await tools.run(askingFiles(opened));
    const names = [...new Set([...packages, ...interfaces, ...modules])];
    const wishes = names.map((name) => ({ name, asking: asking.get(name) ?? document }));
    const withModules = await withUnits(tools, { ...first, study: opened }, wishes);
    const study = withModules ?? opened;
    const provided = await takeProvided(tools, document, newOf(data, tried));
    const given = provided.length === 0 ? study : await withProvided(tools, study, provided);
    const wider = provided.length > 0 ? null : await withFolders(tools, given, data);
    if (given === opened && wider === null) return opened;
    opened = await provideIncludes(tools, document, wider ?? given);
  }
}

function withProvided(tools: OpeningTools, study: Study, provided: readonly SourceFile[]): Promise<Study> {
  return goOn(tools, study, { ...study.input, provided: [...study.input.provided, ...provided] });
}

/** With the files that hold these units; null where none was found. */
export async function withUnits(
  tools: OpeningTools,
  { libraries, study: before }: Lacking,
  wishes: readonly { readonly name: string; readonly asking: string }[],
): Promise<Study | null> {
  const { files } = before.input;
  const document = files[0].path;
  const having = new Set(files.map(({ path }) => fileKey(path)));
  const taken = await Promise.all(wishes.map((wish) => takeUnit(tools, { ...wish, document, libraries, having })));
  const added = new Map(
    taken.flatMap((each) => (each === null ? [] : [[fileKey(each.file.path), each.file] as const])),
  );
  if (added.size === 0) return null;
  const input = withFound(
    await withOwnTop(tools, before),
    taken.flatMap((each) => each?.found ?? []),
  );
  return goOn(tools, before, { ...input, files: [...files, ...added.values()] });
}

/** With further files to compile, and what they include. */
export async function withFiles(
  tools: OpeningTools,
  document: string,
  before: Study,
  files: readonly SourceFile[],
): Promise<Study> {
  if (files.length === 0) return before;
  const { input } = before;
  return provideIncludes(tools, document, await goOn(tools, before, { ...input, files: [...input.files, ...files] }));
}

/**
 * What further files bring is no top: a module is seen in its own right. A test bench is seen with what it tests, which
 * elaboration chooses.
 */
async function withOwnTop(tools: OpeningTools, opened: Study): Promise<StudyInput> {
  const { input } = opened;
  if (input.options.top !== null) return input;
  const { modules, top } = await tools.run(opened.elaboration());
  const isDesign = modules.some(({ isTestBench, name }) => name === top && !isTestBench);
  return isDesign ? { ...input, options: { ...input.options, top } } : input;
}

/** Each name once, as it was found first. */
function withFound(input: StudyInput, found: readonly FoundElsewhere[]): StudyInput {
  const before = input.options.found ?? [];
  const further = found.filter(({ name }) => before.every((each) => each.name !== name));
  return further.length === 0 ? input : { ...input, options: { ...input.options, found: [...before, ...further] } };
}

/** A study of more input: what the one before has read is taken from it. */
export async function goOn(tools: OpeningTools, before: Study, input: StudyInput): Promise<Study> {
  return study({ ...input, previous: await tools.run(before.reading()) }, tools.parser);
}

function newOf(names: readonly string[], tried: Set<string>): readonly string[] {
  const found = names.filter((name) => !tried.has(name));
  for (const name of found) tried.add(name);
  return found;
}
