// Keeps the index of the workspace as its files are: lists the folders, scans what is in them and what is open, and again
// what changed. Works in slices behind everything that somebody waits for; whoever needs the index waits until it is whole.

import { type FileFacts, scanFile } from '../../report/scan-file';
import type { FindFilesReply, FindFilesRequest } from '../file-messages';
import type { Files } from './files';
import { type Owner, type Scheduler, urgencies } from './scheduler';
import { fileKey, rootOf } from './uris';
import { createWorkspaceIndex, type WorkspaceIndex } from './workspace-index';

export interface IndexKeeper {
  /** As it was when it was last whole. */
  readonly index: WorkspaceIndex;
  /** Once everything that was heard of is in the index; the urgency is that of who waits. */
  ready(urgency: number): Promise<WorkspaceIndex>;
  hearFolders(folders: readonly string[]): void;
  /** A folder that a project names, in the workspace or not. */
  cover(folder: string): void;
  /** A document was opened, edited or closed. */
  hearDocument(document: string): void;
  /** Files came, went or changed, open ones among them; null: perhaps any. */
  hearChanged(files: readonly string[] | null): void;
  /** Known files below what may be a folder. */
  below(uri: string): readonly string[];
  /** Whether there are files that it does not look at. */
  isCut(): boolean;
  /** Files and open documents of any kind, for includes and memory files. */
  listed(): readonly string[];
}

export interface KeeperTools {
  readonly files: Files;
  readonly scheduler: Scheduler;
  list(request: FindFilesRequest): Promise<FindFilesReply>;
  /** Other files than before hold units of these names; `files`: and there are other files than before. */
  changed(names: readonly string[], files: 'same files' | 'other files'): void;
  notice(words: string): void;
}

/** More files than these in one workspace are not looked at, and more text is not either. */
export const indexLimits = { files: 10_000, characters: 128_000_000 } as const;

const scanned = ['v', 'vh', 'sv', 'svh', 'inc'];
const extensions = [...scanned, 'hex', 'mem', 'dat', 'vcd'];
const scannedFile = new RegExp(`\\.(?:${scanned.join('|')})$`, 'i');
/** Files read at once. */
const atOnce = 16;

export function createIndexKeeper({ changed, files, list, notice, scheduler }: KeeperTools): IndexKeeper {
  const index = createWorkspaceIndex();
  const owner: Owner = { urgency: urgencies.background };
  const folders = new Set<string>();
  /** By key: files of the folders, with how long each was when it was scanned. */
  const known = new Map<string, { readonly uri: string; characters: number }>();
  /** By key: documents, on the disk or not. */
  const open = new Map<string, string>();
  const unlisted = new Set<string>();
  const unscanned = new Map<string, string>();
  let working: Promise<void> | null = null;
  let characters = 0;
  let hasOthers = false;
  let hasNoticed = false;

  function wake(): void {
    working ??= work().finally(() => {
      working = null;
      owner.urgency = urgencies.background;
    });
  }

  async function work(): Promise<void> {
    // What is heard in the same turn belongs to the same work.
    await null;
    const names = new Set<string>();
    while (unlisted.size > 0 || unscanned.size > 0) {
      for (const folder of [...unlisted]) await listFolder(folder);
      const some = [...unscanned].slice(0, atOnce);
      for (const [key] of some) unscanned.delete(key);
      const facts = await Promise.all(some.map(([, uri]) => factsOf(uri)));
      for (const [place, [, uri]] of some.entries()) for (const name of index.put(uri, facts[place])) names.add(name);
    }
    if (names.size > 0 || hasOthers) changed([...names], hasOthers ? 'other files' : 'same files');
    hasOthers = false;
  }

  async function listFolder(folder: string): Promise<void> {
    unlisted.delete(folder);
    const reply = await list({ folder, extensions, most: indexLimits.files });
    const before = [...known].filter(([key]) => key.startsWith(fileKey(folder)));
    const here = new Map(reply.files.map((uri) => [fileKey(uri), uri]));
    for (const [key, { uri }] of before) if (!here.has(key)) forget(key, uri);
    for (const uri of here.values()) learn(uri);
    if (reply.isCut) tellOnce();
  }

  function forget(key: string, uri: string): void {
    drop(key);
    unscanned.set(key, uri);
  }

  function drop(key: string): void {
    measure(key, 0);
    hasOthers = known.delete(key) || hasOthers;
  }

  function measure(key: string, length: number): void {
    const entry = known.get(key);
    if (entry === undefined) return;
    characters += length - entry.characters;
    entry.characters = length;
  }

  function learn(uri: string): void {
    const key = fileKey(uri);
    if (!known.has(key) && known.size >= indexLimits.files) {
      tellOnce();
      return;
    }
    hasOthers ||= !known.has(key);
    known.set(key, { uri, characters: known.get(key)?.characters ?? 0 });
    if (scannedFile.test(key)) unscanned.set(key, uri);
  }

  function tellOnce(): void {
    if (!hasNoticed) notice(tooMuch);
    hasNoticed = true;
  }

  /** Null for a file that is neither open nor in a folder any more, or that there is no room for. */
  async function factsOf(uri: string): Promise<FileFacts | null> {
    const key = fileKey(uri);
    const isOpen = files.openText(uri) !== null;
    if (!isOpen && !known.has(key)) return null;
    const text = await files.read(uri);
    measure(key, text?.length ?? 0);
    if (text === null) drop(key);
    if (text === null || isOpen || characters <= indexLimits.characters)
      return text === null ? null : scheduler.run(scanFile(text), owner);
    measure(key, 0);
    files.hearChanged([uri]);
    tellOnce();
    return null;
  }

  function isCovered(uri: string): boolean {
    return [...folders].some((folder) => fileKey(uri).startsWith(fileKey(folder)));
  }

  function include(folder: string): void {
    const whole = folder.endsWith('/') ? folder : `${folder}/`;
    if (rootOf(whole) === null || isCovered(whole)) return;
    folders.add(whole);
    unlisted.add(whole);
    wake();
  }

  return {
    index,
    async ready(urgency) {
      owner.urgency = Math.min(owner.urgency, urgency);
      while (working !== null) await working;
      return index;
    },
    hearFolders(given) {
      folders.clear();
      for (const [key, { uri }] of [...known]) forget(key, uri);
      for (const folder of given) include(folder);
      wake();
    },
    cover: include,
    hearDocument(document) {
      const key = fileKey(document);
      const before = open.size;
      if (files.openText(document) === null) open.delete(key);
      else open.set(key, document);
      hasOthers ||= open.size !== before && !known.has(key);
      unscanned.set(key, document);
      wake();
    },
    hearChanged(changedFiles) {
      if (changedFiles === null) for (const folder of folders) unlisted.add(folder);
      const listable = (uri: string) => hasExtension(uri) && isCovered(uri);
      for (const uri of (changedFiles ?? []).filter(listable)) learn(uri);
      wake();
    },
    below(uri) {
      if (hasExtension(uri)) return [];
      const folder = `${fileKey(uri)}/`;
      return [...known].filter(([key]) => key.startsWith(folder)).map(([, each]) => each.uri);
    },
    isCut: () => hasNoticed,
    listed: () => [...new Map([...[...known].map(([key, { uri }]) => [key, uri] as const), ...open]).values()],
  };
}

function hasExtension(uri: string): boolean {
  return extensions.includes(fileKey(uri).split('.').at(-1)?.toLowerCase() ?? '');
}

const tooMuch =
  'Foretick does not look at every Verilog file of this workspace: it is too large. Modules in the files left out are found only in files of their own name, beside the file that uses them or in a library that foretick.json names.';
