// From a document to its study: finds the project file, then goes on handing over the includes and the modules that the
// study asks for until it asks for nothing new. The study of a document compiles that document and what it needs, so a top
// that the project names counts where the document knows such a module; one that a person chooses may stand elsewhere.

import { askingFiles } from '../../report/asking-files';
import type { FoundElsewhere } from '../../report/build-found';
import type { StudyOptions } from '../../report/options';
import { noProject, type Project } from '../../report/project';
import { Refusal } from '../../report/refusal';
import { type Study, type StudyInput, study } from '../../report/study';
import type { Reading } from '../../syntax/read';
import type { SliceParser } from '../../syntax/slice-parser';
import type { SourceFile } from '../../text/source';
import type { StudyChoices, StudyMark } from '../panel-messages';
import { type EditorSettings, readSettings } from '../settings';
import { digestOf } from './digest';
import { type Finding, foldersHolding, takeNeeded, takeUnit } from './find-elsewhere';
import { findProject } from './project-files';
import { noChoices } from '../no-choices';
import { studyOptionsOf } from './study-options';
import { fileKey, folderUri, uriOfPath } from './uris';

export interface Opened {
  readonly study: Study;
  /** Folders that the project states for modules that are not given, each with `/` at its end. */
  readonly libraries: readonly string[];
  readonly settings: EditorSettings;
  /** Why the project file, a setting or a choice cannot be followed: then only what reading found is of use. */
  readonly refusal: string | null;
  /** Names text and options, all of them. */
  readonly mark: StudyMark;
}

/** What opening a study takes; each may reject, for instance because newer text came in. */
export interface OpeningTools extends Finding {
  readonly parser: SliceParser;
  /** Has the workspace know a folder that a project names. */
  cover(folder: string): void;
  run<Result>(stage: Generator<void, Result>): Promise<Result>;
  /** An earlier reading of the document with these options' limits, if there is one: what has not changed is taken from it. */
  earlier(options: StudyOptions): Reading | null;
}

export interface Opening {
  readonly document: string;
  readonly text: string;
  readonly settings: EditorSettings;
  readonly choices: StudyChoices;
}

/** With every include that could be found: what reading finds is final, unless modules bring more files. */
export async function openReading(tools: OpeningTools, opening: Opening): Promise<Opened> {
  const { document, settings, text } = opening;
  const found = await findProject(document, tools.read);
  const { folder, project } = found;
  const named = [...project.libraries, ...project.includes].map((written) => wholeFolder(folderUri(folder, written)));
  for (const each of named) tools.cover(each);
  const files = {
    files: [{ path: document, text }],
    provided: [],
    includeFolders: project.includes.map((written) => folderUri(folder, written)),
  };
  const first = firstStudy(tools, opening, project, files);
  const whole = await provideIncludes(tools, document, first.study);
  const settled = opening.choices.top === null ? await withKnownTop(tools, whole) : whole;
  const refusal = found.refusal ?? first.refusal;
  const libraries = named.slice(0, project.libraries.length);
  return { study: settled, libraries, settings, refusal, mark: markOf(settled.input, refusal) };
}

/** Also with the top that was chosen, the modules, packages and interfaces that are used, and files that memories start from. */
export async function openWhole(tools: OpeningTools, document: string, opened: Opened): Promise<Opened> {
  if (opened.refusal !== null) return opened;
  const chosen = await withChosenTop(tools, document, opened);
  const needed = { ...chosen, study: await withNeeded(tools, document, chosen) };
  const whole = await provideRest(tools, document, needed);
  return { ...opened, study: whole, mark: markOf(whole.input, null) };
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

/** Includes may name further units. */
async function withNeeded(tools: OpeningTools, document: string, { libraries, study: before }: Opened): Promise<Study> {
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

async function withChosenTop(tools: OpeningTools, document: string, opened: Opened): Promise<Opened> {
  const { top } = opened.study.input.options;
  if (top === null || (await knows(tools, opened.study, top))) return opened;
  return { ...opened, study: (await withUnits(tools, opened, [{ name: top, asking: document }])) ?? opened.study };
}

/** Where options cannot be followed, a study with none of them: its reading still holds. */
function firstStudy(
  tools: OpeningTools,
  { choices, settings }: Opening,
  project: Project,
  files: Omit<StudyInput, 'options'>,
): { readonly study: Study; readonly refusal: string | null } {
  try {
    return { study: begin(tools, { ...files, options: studyOptionsOf(project, settings, choices) }), refusal: null };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const options = studyOptionsOf(noProject, readSettings(null), noChoices);
    return { study: begin(tools, { ...files, options }), refusal: error.message };
  }
}

function begin(tools: OpeningTools, input: StudyInput): Study {
  const previous = tools.earlier(input.options);
  return study(previous === null ? input : { ...input, previous }, tools.parser);
}

/** Includes may ask for more: each round hands over what the last one asked for and is there. */
async function provideIncludes(tools: OpeningTools, document: string, first: Study): Promise<Study> {
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

async function provideRest(tools: OpeningTools, document: string, first: Opened): Promise<Study> {
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
async function withUnits(
  tools: OpeningTools,
  { libraries, study: before }: Opened,
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

/** Each name once, as it was found first. */
function withFound(input: StudyInput, found: readonly FoundElsewhere[]): StudyInput {
  const before = input.options.found ?? [];
  const further = found.filter(({ name }) => before.every((each) => each.name !== name));
  return further.length === 0 ? input : { ...input, options: { ...input.options, found: [...before, ...further] } };
}

function wholeFolder(folder: string): string {
  return folder.endsWith('/') ? folder : `${folder}/`;
}

/** A project has one top, and documents that know nothing of it. */
async function withKnownTop(tools: OpeningTools, opened: Study): Promise<Study> {
  const { options } = opened.input;
  if (options.top === null || (await knows(tools, opened, options.top))) return opened;
  return goOn(tools, opened, { ...opened.input, options: { ...options, top: null } });
}

async function knows(tools: OpeningTools, opened: Study, module: string): Promise<boolean> {
  const { units } = await tools.run(opened.reading());
  return units.some(({ table }) => table.kind === 'module' && table.name.name === module);
}

/** A study of more input: what the one before has read is taken from it. */
async function goOn(tools: OpeningTools, before: Study, input: StudyInput): Promise<Study> {
  return study({ ...input, previous: await tools.run(before.reading()) }, tools.parser);
}

function newOf(names: readonly string[], tried: Set<string>): readonly string[] {
  const found = names.filter((name) => !tried.has(name));
  for (const name of found) tried.add(name);
  return found;
}

function markOf({ files, includeFolders, options, provided }: StudyInput, refusal: string | null): StudyMark {
  return digestOf(JSON.stringify([files, provided, includeFolders, options, refusal]));
}
