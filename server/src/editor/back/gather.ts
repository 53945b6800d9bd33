// What a feature asks of the workspace beyond its own study: the files are looked up in the index and read, each with what
// it needs itself. All of it is of one moment: what has changed before the answer is given makes the answer of no use.

import type { Reading } from '../../syntax/read';
import type { SourceFile } from '../../text/source';
import type { Further, WorkspaceView } from '../features/workspace-view';
import { noChoices } from '../no-choices';
import type { Answering } from './answering';
import { type Opened, openReading } from './open-study';
import { type OpeningTools, withFiles } from './provide-files';
import { type Owner, Superseded } from './scheduler';
import { fileKey } from './uris';
import type { WorkspaceIndex } from './workspace-index';

export interface Gathered {
  readonly view: WorkspaceView;
  /** Throws a `Superseded` where a text that went into it is not what it was. */
  check(): void;
}

/** More files than these are not read for one answer. */
export const mostFiles = 500;

/** `opened`: the study of the document that the feature is about. */
export async function gather(answering: Answering, opened: Opened, further: Further, owner: Owner): Promise<Gathered> {
  const { files, keeper } = answering;
  const index = await keeper.ready(owner.urgency);
  const document = opened.study.input.files[0].path;
  const meant = await filesMeant(answering, index, opened, further);
  const uris = meant.slice(0, mostFiles);
  const sources = await Promise.all(uris.map((uri) => sourceOf(answering, uri)));
  const given = sources.flatMap((source) => source ?? []);
  const readings: WorkspaceView['readings'][number][] = [];
  const reads = { answering, index, opened, onTheWay: namesOnTheWay(index, further), owner };
  if (further.kind !== 'texts')
    for (const source of given) readings.push({ uri: source.path, reading: await readingOf(reads, source) });
  const texts = further.kind === 'texts' ? given : [];
  const seen = [...given, ...opened.study.input.files.filter(({ path }) => path === document)];
  return {
    view: {
      units: index.units(),
      macros: index.macros(),
      readings,
      texts,
      isWhole: uris.length === meant.length && !keeper.isCut(),
    },
    check() {
      for (const { path, text } of seen) if ((files.openText(path) ?? text) !== text) throw new Superseded();
    },
  };
}

async function filesMeant(
  answering: Answering,
  index: WorkspaceIndex,
  { libraries, study }: Opened,
  further: Further,
): Promise<readonly string[]> {
  const document = study.input.files[0].path;
  if (further.kind === 'units')
    return unique(further.names.flatMap((name) => index.filesOf(name, document, libraries).slice(0, 1)));
  const { word } = further;
  const above = further.kind === 'uses' ? index.unitsAbove(further.of).map(({ uri }) => uri) : index.uris();
  const own = study.input.files.map(({ path }) => path);
  const candidates = unique([...own, ...above]);
  const texts = await Promise.all(candidates.map((uri) => answering.files.read(uri)));
  return candidates.filter((_, place) => holdsWord(texts[place] ?? '', word));
}

/** As a whole: not inside another name. */
function holdsWord(text: string, word: string): boolean {
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
    if (!isNamePart(text[at - 1]) && !isNamePart(text[at + word.length])) return true;
  }
  return false;
}

function isNamePart(character: string | undefined): boolean {
  return character !== undefined && /[A-Za-z0-9_$]/.test(character);
}

async function sourceOf({ files }: Answering, uri: string): Promise<SourceFile | null> {
  const text = await files.read(uri);
  return text === null ? null : { path: uri, text };
}

interface Reads {
  readonly answering: Answering;
  readonly index: WorkspaceIndex;
  readonly opened: Opened;
  readonly onTheWay: ReadonlySet<string>;
  readonly owner: Owner;
}

/** A hierarchical name leads down to a unit through those that use it. */
function namesOnTheWay(index: WorkspaceIndex, further: Further): ReadonlySet<string> {
  if (further.kind !== 'uses') return new Set();
  return new Set([...further.of, ...index.unitsAbove(further.of).map(({ unit }) => unit.name)]);
}

/** The file, what it includes, and the files of units that it uses, as far down as matters. */
async function readingOf(
  { answering, index, onTheWay, opened, owner }: Reads,
  { path, text }: SourceFile,
): Promise<Reading> {
  const tools = await toolsFor(answering, opened, owner);
  const { settings } = opened;
  const reading = await openReading(tools, { document: path, text, settings, choices: noChoices });
  const { libraries } = reading;
  const needed = index.filesBelow([path], { libraries, most: mostFiles, onTheWay });
  const more = await Promise.all(needed.map(({ uri }) => sourceOf(answering, uri)));
  const whole = await withFiles(
    tools,
    path,
    reading.study,
    more.flatMap((source) => source ?? []),
  );
  return tools.run(whole.reading());
}

async function toolsFor(answering: Answering, opened: Opened, owner: Owner): Promise<OpeningTools> {
  const { compile, files, keeper, parser, scheduler } = answering;
  const earlier = await scheduler.run(opened.study.reading(), owner);
  const limits = JSON.stringify(opened.study.input.options.limits);
  return {
    parser: await parser,
    compile,
    read: files.read,
    filesOf: async (name, asking, libraries) => keeper.index.filesOf(name, asking, libraries),
    filesBelow: async () => [],
    listed: async () => keeper.listed(),
    cover: keeper.cover,
    run: (stage) => scheduler.run(stage, owner),
    earlier: (options) => (JSON.stringify(options.limits) === limits ? { previous: earlier } : {}),
  };
}

function unique(uris: readonly string[]): readonly string[] {
  return [...new Map(uris.map((uri) => [fileKey(uri), uri])).values()];
}
