// From a document to its study: finds the project file, then goes on handing over the includes and the modules that the
// study asks for until it asks for nothing new. The study of a document compiles that document and what it needs, so a top
// that the project names counts where the document knows such a module.

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
import { findProject } from './project-files';
import { noChoices } from '../no-choices';
import { studyOptionsOf } from './study-options';
import { folderOf, folderUri, rootOf, uriOfPath } from './uris';

export interface Opened {
  readonly study: Study;
  /** Folders in which modules that are not given are looked for. */
  readonly libraries: readonly string[];
  readonly settings: EditorSettings;
  /** Why the project file, a setting or a choice cannot be followed: then only what reading found is of use. */
  readonly refusal: string | null;
  /** Names text and options, all of them. */
  readonly mark: StudyMark;
}

/** What opening a study takes; each may reject, for instance because newer text came in. */
export interface OpeningTools {
  readonly parser: SliceParser;
  read(uri: string): Promise<string | null>;
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
  const files = {
    files: [{ path: document, text }],
    provided: [],
    includeFolders: project.includes.map((written) => folderUri(folder, written)),
  };
  const first = firstStudy(tools, opening, project, files);
  const whole = await provideIncludes(tools, document, first.study);
  const settled = opening.choices.top === null ? await withKnownTop(tools, whole) : whole;
  const refusal = found.refusal ?? first.refusal;
  const libraries = [...project.libraries.map((written) => folderUri(folder, written)), folderOf(document)];
  return { study: settled, libraries, settings, refusal, mark: markOf(settled.input, refusal) };
}

/** Also with the modules that are instantiated and stand in files of their name, and the files that memories start from. */
export async function openWhole(tools: OpeningTools, document: string, opened: Opened): Promise<Opened> {
  if (opened.refusal !== null) return opened;
  const whole = await provideRest(tools, document, opened);
  return { ...opened, study: whole, mark: markOf(whole.input, null) };
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
    if (provided.length === 0) return opened;
    const { input } = opened;
    opened = await goOn(tools, opened, { ...input, provided: [...input.provided, ...provided] });
  }
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

async function provideRest(tools: OpeningTools, document: string, { libraries, study: first }: Opened): Promise<Study> {
  const tried = new Set<string>();
  const triedData = new Set<string>();
  let opened = first;
  for (;;) {
    const { data, modules } = await tools.run(opened.wanted());
    const found = await Promise.all(newOf(modules, tried).map((module) => takeModule(tools, libraries, module)));
    const files = found.flat();
    const provided = await takeProvided(tools, document, newOf(data, triedData));
    if (files.length === 0 && provided.length === 0) return opened;
    const { input } = opened;
    opened = await provideIncludes(
      tools,
      document,
      await goOn(tools, opened, {
        ...input,
        files: [...input.files, ...files],
        provided: [...input.provided, ...provided],
      }),
    );
  }
}

/** A module of a library stands in a file of its name; the first library that has one gives it. */
async function takeModule(
  { read }: OpeningTools,
  libraries: readonly string[],
  module: string,
): Promise<readonly SourceFile[]> {
  const uris = libraries.flatMap((folder) => {
    const file = `${folder.endsWith('/') ? folder : `${folder}/`}${module}`;
    return rootOf(file) === null ? [] : [`${file}.v`, `${file}.sv`];
  });
  const texts = await Promise.all(uris.map(read));
  return texts.flatMap((text, index) => (text === null ? [] : [{ path: uris[index], text }])).slice(0, 1);
}

/** A project has one top, and documents that know nothing of it. */
async function withKnownTop(tools: OpeningTools, opened: Study): Promise<Study> {
  const { options } = opened.input;
  const { units } = await tools.run(opened.reading());
  const isKnown = units.some(({ table }) => table.kind === 'module' && table.name.name === options.top);
  if (options.top === null || isKnown) return opened;
  return goOn(tools, opened, { ...opened.input, options: { ...options, top: null } });
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
