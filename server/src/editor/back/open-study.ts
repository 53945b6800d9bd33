// From a document to its study: finds the project file and what it states, then has the study given all it lacks. The study of a document compiles that document and what it needs, so a top
// that the project names counts where the document knows such a module; one that a person chooses may stand elsewhere.

import { askedDump } from '../../report/dump-drive';
import { noProject, type Project } from '../../report/project';
import { Refusal } from '../../report/refusal';
import { type Study, type StudyInput, study } from '../../report/study';
import type { SourceFile } from '../../text/source';
import type { StudyChoices, StudyMark } from '../panel-messages';
import { type EditorSettings, readSettings } from '../settings';
import { digestOf } from './digest';
import { findProject } from './project-files';
import { goOn, type OpeningTools, provideIncludes, provideRest, withNeeded, withUnits } from './provide-files';
import { noChoices } from '../no-choices';
import { studyOptionsOf } from './study-options';
import { folderUri } from './uris';

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
    dump: askedDump(project, folder),
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
  return study({ ...input, compile: tools.compile, ...tools.earlier(input.options) }, tools.parser);
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

function markOf({ dump, files, includeFolders, options, provided }: StudyInput, refusal: string | null): StudyMark {
  const sources = [...files, ...provided];
  const about = [files.length, sources.map(({ path }) => path), includeFolders, dump, options, refusal];
  return digestOf(JSON.stringify([about, sources.map(digestOfText)]));
}

/** A file's text is looked through once, however many studies it is part of. */
function digestOfText(file: SourceFile): string {
  const digest = digests.get(file) ?? digestOf(file.text);
  digests.set(file, digest);
  return digest;
}

const digests = new WeakMap<SourceFile, string>();
