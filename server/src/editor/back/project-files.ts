// The project file of a document: the nearest `foretick.json` at or above it, with the folder that its own paths start from.

import { noProject, type Project, parseProject } from '../../report/project';
import { Refusal } from '../../report/refusal';
import { foldersUpward } from './uris';

export interface FoundProject {
  readonly project: Project;
  /** Its folder, with `/` at the end; empty where there is no project file. */
  readonly folder: string;
  /** Why it cannot be followed: then `project` says nothing. */
  readonly refusal: string | null;
}

export async function findProject(
  document: string,
  read: (uri: string) => Promise<string | null>,
): Promise<FoundProject> {
  const folders = foldersUpward(document);
  const texts = await Promise.all(folders.map((folder) => read(`${folder}foretick.json`)));
  const nearest = texts.findIndex((text) => text !== null);
  const text = texts[nearest] ?? null;
  return text === null ? { project: noProject, folder: '', refusal: null } : openProject(text, folders[nearest]);
}

function openProject(text: string, folder: string): FoundProject {
  try {
    return { project: parseProject(text, 'foretick.json'), folder, refusal: null };
  } catch (error) {
    if (error instanceof Refusal) return { project: noProject, folder, refusal: error.message };
    throw error;
  }
}
