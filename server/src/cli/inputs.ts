// From arguments to a study: reads the files, finds the project file, and goes on handing over the includes that the
// study asks for until it asks for nothing new. Paths are shown as given, with `/`.

import path from 'node:path';
import { compileModule } from '../module-compiler';
import { askedDump } from '../report/dump-drive';
import { optionsFrom, type StudyOptions } from '../report/options';
import { noProject, type Project, parseProject } from '../report/project';
import { refuse } from '../report/refusal';
import { type Study, type StudyInput, study } from '../report/study';
import type { SourceFile } from '../text/source';
import { type CommonOptions, settingsOf, type WhatIfOption } from './common-options';
import { runToEnd } from './run-to-end';
import type { World } from './world';

export async function openStudy(
  world: World,
  files: readonly string[],
  options: CommonOptions & WhatIfOption,
): Promise<Study> {
  const found = findProject(world, files, options.project ?? null);
  const input: StudyInput = {
    files: files.map((file) => readGiven(world, file)),
    provided: [],
    includeFolders: [
      ...(options.include ?? []).map(withSlashes),
      ...found.project.includes.map((folder) => found.folder + folder),
    ],
    options: studyOptions(found.project, options),
    dump: askedDump(found.project, found.folder),
    compile: compileModule,
  };
  const parser = await world.loadParser();
  const shelves: Shelves = { world, libraries: found.project.libraries.map((folder) => found.folder + folder) };
  return provideWanted(shelves, input, (next) => study(next, parser));
}

function studyOptions(project: Project, options: CommonOptions & WhatIfOption): StudyOptions {
  return optionsFrom(project, settingsOf(options));
}

function readGiven(world: World, file: string): SourceFile {
  const text = world.readText(path.resolve(world.currentFolder, file));
  return { path: withSlashes(file), text: text ?? refuse(`${file} cannot be read`) };
}

/** Where what is wanted may be found. */
interface Shelves {
  readonly world: World;
  readonly libraries: readonly string[];
}

/** Includes, data files and modules may ask for more: each round hands over what the last one asked for and the disk has. */
function provideWanted(shelves: Shelves, first: StudyInput, open: (input: StudyInput) => Study): Study {
  const tried = new Set<string>();
  let input = first;
  for (;;) {
    const opened = open(input);
    const wanted = runToEnd(opened.wanted());
    const provided = takeFrom(shelves, tried, [...wanted.includes, ...wanted.data]);
    const files = wanted.modules.flatMap((module) =>
      takeFrom(shelves, tried, libraryPaths(shelves, module)).slice(0, 1),
    );
    if (provided.length + files.length === 0) return opened;
    input = { ...input, provided: [...input.provided, ...provided], files: [...input.files, ...files] };
  }
}

/** A module of a library stands in a file of its name. */
function libraryPaths({ libraries }: Shelves, module: string): readonly string[] {
  return libraries.flatMap((folder) => [`${folder}/${module}.v`, `${folder}/${module}.sv`]);
}

/** Those of the paths that hold a file and were not tried before. */
function takeFrom({ world }: Shelves, tried: Set<string>, paths: readonly string[]): readonly SourceFile[] {
  return paths.flatMap((file) => {
    if (tried.has(file)) return [];
    tried.add(file);
    const text = world.readText(path.resolve(world.currentFolder, file));
    return text === null ? [] : [{ path: file, text }];
  });
}

interface FoundProject {
  readonly project: Project;
  /** Where the project's own paths start from, ending in `/`; empty for the current folder. */
  readonly folder: string;
}

/** The file named, or the nearest `foretick.json` at or above the first file. */
function findProject(world: World, files: readonly string[], named: string | null): FoundProject {
  if (named === 'none') return { project: noProject, folder: '' };
  if (named !== null) {
    const text = world.readText(path.resolve(world.currentFolder, named));
    return openProject(text ?? refuse(`${named} cannot be read`), withSlashes(named));
  }
  const first = files[0] ?? '.';
  let folder = path.dirname(path.resolve(world.currentFolder, first));
  for (;;) {
    const file = path.join(folder, 'foretick.json');
    const text = world.readText(file);
    if (text !== null) return openProject(text, withSlashes(path.relative(world.currentFolder, file)));
    const above = path.dirname(folder);
    if (above === folder) return { project: noProject, folder: '' };
    folder = above;
  }
}

function openProject(text: string, file: string): FoundProject {
  return { project: parseProject(text, file), folder: file.slice(0, file.lastIndexOf('/') + 1) };
}

/** A Windows path in the form in which reports show it. */
function withSlashes(file: string): string {
  return path.sep === '\\' ? file.replaceAll('\\', '/') : file;
}
