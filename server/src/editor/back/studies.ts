// The studies at hand: one for each open document as it stands, and the last few variants that panels asked for. Each is
// opened when it is first asked for and dropped once a text it looked at changes; whoever waits for it hears so at once.

import type { StudyInput } from '../../report/study';
import type { ModuleCompiler } from '../../cycles/compiled-module';
import type { SliceParser } from '../../syntax/slice-parser';
import type { StudyChoices } from '../panel-messages';
import type { EditorSettings } from '../settings';
import type { Findings } from '../worker-messages';
import type { Files } from './files';
import { type IndexKeeper, indexLimits } from './index-keeper';
import { type Opened, openReading, openWhole } from './open-study';
import type { OpeningTools } from './provide-files';
import { type Owner, type Scheduler, Superseded } from './scheduler';
import { noChoices } from '../no-choices';
import { fileKey } from './uris';

/** Variants kept; the study of an open document without choices is always kept. */
const variantsKept = 4;

export interface Subject {
  readonly document: string;
  readonly choices: StudyChoices;
}

/** A study that was asked for. Its promises reject with a `Superseded` once it is of no use. */
export interface Asked {
  /** With its includes. */
  reading(): Promise<Opened>;
  /** With its modules too. */
  whole(): Promise<Opened>;
  /** Those that go furthest of what has been told. */
  findings: Findings | null;
  /** Whether it is going to be told when the search for glitches has ended. */
  isAwaited: boolean;
  /** Never resolves. */
  readonly dropped: Promise<never>;
  /** Runs a stage for one asker, who is dropped with the study. */
  run<Result>(stage: Generator<void, Result>, asker: Owner): Promise<Result>;
}

export interface Studies {
  /** `subject.document` must be open. */
  ask(subject: Subject, urgency: number): Asked;
  /** Drops what looked at one of these files or asked for one of these units (keys; null: any) and names its documents. */
  drop(keys: readonly string[] | null): readonly string[];
  /** Forgets a document that is not open any more. */
  forget(document: string): void;
}

export interface StudyTools {
  readonly parser: Promise<SliceParser>;
  readonly compile: ModuleCompiler;
  readonly files: Files;
  readonly keeper: IndexKeeper;
  readonly scheduler: Scheduler;
  settingsOf(document: string): Promise<EditorSettings>;
}

/** What `drop` calls the files that hold a unit of that name. */
export function unitKey(name: string): string {
  return `unit ${name}`;
}

/** What `drop` calls the list of all files. */
export const listingKey = 'files';

interface Entry extends Asked {
  readonly document: string;
  readonly isVariant: boolean;
  /** The module that it has as its top, once that is known. */
  readonly top: string | null;
  readonly owner: Owner;
  /** Keys of the files it looked at, found or not. */
  readonly files: ReadonlySet<string>;
  /** Whoever waits hears a `Superseded`. */
  drop(): void;
}

export function createStudies(tools: StudyTools): Studies {
  const entries = new Map<string, Entry>();
  const earlier = new Map<string, Earlier>();

  function discard(key: string): void {
    entries.get(key)?.drop();
    entries.delete(key);
  }

  function dropOldVariants(): void {
    const variants = [...entries].filter(([, { isVariant }]) => isVariant);
    for (const [key] of variants.slice(0, Math.max(0, variants.length - variantsKept))) discard(key);
  }

  return {
    ask(subject, urgency) {
      const key = keyOf(choosesWhatIs(entries, subject) ? { ...subject, choices: noChoices } : subject);
      const entry = entries.get(key) ?? openEntry(tools, earlier, subject, urgency);
      entry.owner.urgency = Math.min(entry.owner.urgency, urgency);
      // The latest asked for stands last.
      entries.delete(key);
      entries.set(key, entry);
      dropOldVariants();
      return entry;
    },
    drop(keys) {
      const stale = [...entries].filter(([, { files }]) => keys === null || keys.some((key) => files.has(key)));
      for (const [key] of stale) discard(key);
      return [...new Set(stale.map(([, { document }]) => document))];
    },
    forget(document) {
      for (const [key, entry] of [...entries]) if (entry.document === document) discard(key);
      earlier.delete(document);
    },
  };
}

function keyOf({ choices, document }: Subject): string {
  return JSON.stringify([document, choices]);
}

/** A panel opened from a module names that module as top, which mostly is the top anyway: one study serves both. */
function choosesWhatIs(entries: ReadonlyMap<string, Entry>, { choices, document }: Subject): boolean {
  const plain = entries.get(keyOf({ document, choices: noChoices }));
  return choices.top !== null && plain?.top === choices.top && !hasChoice({ ...choices, top: null });
}

/** What the last study of a document came to, as far as the next one can take it over, and the limits it was made with. */
interface Earlier extends Pick<StudyInput, 'previous' | 'kept' | 'searches'> {
  readonly limits: string;
}

function openEntry(
  { compile, files, keeper, parser, scheduler, settingsOf }: StudyTools,
  earlier: Map<string, Earlier>,
  { choices, document }: Subject,
  urgency: number,
): Entry {
  const owner: Owner = { urgency };
  const askers = new Set<Owner>();
  const looked = new Set([fileKey(document)]);
  const dropping = refusable();
  let whole: Promise<Opened> | null = null;
  let asksIndex = false;
  let top: string | null = null;

  async function openTools(): Promise<OpeningTools> {
    return {
      parser: await parser,
      compile,
      read(uri) {
        looked.add(fileKey(uri));
        return files.read(uri);
      },
      async filesOf(name, asking, libraries) {
        const index = await keeper.ready(owner.urgency);
        looked.add(unitKey(name));
        asksIndex = true;
        return index.filesOf(name, asking, libraries);
      },
      async filesBelow(uris, libraries) {
        const index = await keeper.ready(owner.urgency);
        const needed = index.filesBelow(uris, { libraries, most: indexLimits.files, onTheWay: null });
        for (const { name } of needed) looked.add(unitKey(name));
        asksIndex = true;
        return needed;
      },
      cover: keeper.cover,
      async listed() {
        await keeper.ready(owner.urgency);
        looked.add(listingKey);
        asksIndex = true;
        return keeper.listed();
      },
      run: (stage) => scheduler.run(stage, owner),
      earlier(options) {
        const { limits, ...found } = earlier.get(document) ?? {};
        return limits === JSON.stringify(options.limits) ? found : {};
      },
    };
  }

  async function open(): Promise<Opened> {
    const text = files.openText(document) ?? '';
    const settings = await settingsOf(document);
    const opened = await openReading(await openTools(), { document, text, settings, choices });
    await keep(opened);
    return opened;
  }

  async function openMore(): Promise<Opened> {
    const opened = await openWhole(await openTools(), document, await reading);
    await keep(opened);
    if (opened.refusal === null) await keepTemplates(opened);
    return opened;
  }

  /** What is not in the index yet may drop a study that has asked it. */
  async function whileItHolds(opened: Opened): Promise<Opened> {
    if (asksIndex) await keeper.ready(owner.urgency);
    return opened;
  }

  async function keep({ study }: Opened): Promise<void> {
    const limits = JSON.stringify(study.input.options.limits);
    const previous = await scheduler.run(study.reading(), owner);
    earlier.set(document, { ...earlier.get(document), previous, limits });
  }

  async function keepTemplates({ study }: Opened): Promise<void> {
    const elaboration = await scheduler.run(study.elaboration(), owner);
    top = elaboration.top;
    const before = earlier.get(document);
    if (before !== undefined) earlier.set(document, { ...before, kept: elaboration.kept, searches: study.searches });
  }

  const reading = orDropped(open());

  /** A promise that nobody waits for may be rejected without harm. */
  function orDropped<Result>(work: Promise<Result>): Promise<Result> {
    const either = Promise.race([work, dropping.promise]);
    either.catch(() => {});
    return either;
  }

  return {
    document,
    isVariant: hasChoice(choices),
    owner,
    files: looked,
    findings: null,
    isAwaited: false,
    get top() {
      return top;
    },
    dropped: dropping.promise,
    reading: () => reading,
    whole() {
      whole ??= orDropped(openMore());
      return orDropped(whole.then(whileItHolds));
    },
    run(stage, asker) {
      askers.add(asker);
      return scheduler.run(stage, asker).finally(() => askers.delete(asker));
    },
    drop() {
      dropping.refuse(new Superseded());
      for (const each of [owner, ...askers]) scheduler.drop(each);
    },
  };
}

function hasChoice({ clocks, delays, inputs, resets, start, top, whatIf }: StudyChoices): boolean {
  const named = [clocks, inputs, resets].some((choices) => Object.keys(choices).length > 0);
  return named || whatIf.length > 0 || delays !== null || start !== null || top !== null;
}

function refusable(): { readonly promise: Promise<never>; refuse(error: Error): void } {
  let refuse: (error: Error) => void = () => {};
  const promise = new Promise<never>((_resolve, reject) => {
    refuse = reject;
  });
  promise.catch(() => {});
  return { promise, refuse: (error) => refuse(error) };
}
