// The back half: hears of texts, settings and files, and answers questions from studies of them. Keeps no memory of earlier
// questions beyond the studies at hand, which newer text drops. Knows neither Node nor a browser: the parser, the compiler,
// a clock and the way to the front are handed in.

import type { ModuleCompiler } from '../../cycles/compiled-module';
import type { SliceParser } from '../../syntax/slice-parser';
import type { FindFilesReply, FindFilesRequest } from '../file-messages';
import { type EditorSettings, readSettings } from '../settings';
import type { BackMessage, FrontMessage } from '../worker-messages';
import { type Asker, answerQuestion } from './answer';
import type { Answering } from './answering';
import { createFiles } from './files';
import { createIndexKeeper } from './index-keeper';
import { type Clockwork, createScheduler } from './scheduler';
import { createStudies, listingKey, unitKey } from './studies';
import { fileKey } from './uris';

export interface BackTools {
  readonly parser: Promise<SliceParser>;
  readonly compile: ModuleCompiler;
  readonly clockwork: Clockwork;
  say(message: BackMessage): void;
}

/** Gives what hears the messages of the front. */
export function createBack({ clockwork, compile, parser, say }: BackTools): (message: FrontMessage) => void {
  const reads = createReads(say);
  const files = createFiles(reads.fetch);
  const scheduler = createScheduler(clockwork);
  const settings = createSettings();
  const listings = createListings(say);
  const keeper = createIndexKeeper({
    files,
    scheduler,
    list: listings.fetch,
    changed(names, others) {
      const keys = [...names.map(unitKey), ...(others === 'other files' ? [listingKey] : [])];
      sayChanged(studies.drop(keys));
    },
    notice: (words) => say({ kind: 'notice', words }),
  });
  const studies = createStudies({ parser, compile, files, keeper, scheduler, settingsOf: settings.of });
  const answering: Answering = { files, keeper, parser, compile, scheduler, studies, changed: sayChanged };
  const asked = new Map<number, Asker>();

  /** After the answers that newer text cut short, which are under way. */
  function sayChanged(documents: readonly string[], edited: string | null = null): void {
    if (documents.length > 0) clockwork.turn(() => say({ kind: 'changed', documents, edited }));
  }

  /** What an editor holds open counts as it stands there, whatever is saved. */
  function isNotOpen(file: string): boolean {
    return files.openText(file) === null;
  }

  function hear(message: FrontMessage): void {
    switch (message.kind) {
      case 'text':
        files.hearText(message.document, message.text);
        keeper.hearDocument(message.document);
        sayChanged(withItself(message.document, studies.drop([fileKey(message.document)])), message.document);
        break;
      case 'settings':
        if (settings.hear(message.document, message.settings)) sayChanged(studies.drop([fileKey(message.document)]));
        break;
      case 'closed':
        files.hearClosed(message.document);
        keeper.hearDocument(message.document);
        settings.forget(message.document);
        studies.forget(message.document);
        sayChanged(studies.drop([fileKey(message.document)]));
        break;
      case 'files-changed': {
        // Of a folder that is gone nobody names the files.
        const changed = message.files?.flatMap((uri) => [uri, ...keeper.below(uri)]) ?? null;
        files.hearChanged(changed);
        keeper.hearChanged(changed);
        sayChanged(studies.drop(changed?.filter(isNotOpen).map(fileKey) ?? null));
        break;
      }
      case 'ask': {
        const { id, question } = message;
        const asker: Asker = { owner: { urgency: 0 }, isGone: false };
        asked.set(id, asker);
        void answerQuestion(answering, question, asker).then((answer) => {
          asked.delete(id);
          say({ kind: 'answer', id, answer });
        });
        break;
      }
      case 'cancel': {
        const asker = asked.get(message.id);
        if (asker === undefined) break;
        asker.isGone = true;
        scheduler.drop(asker.owner);
        break;
      }
      case 'file':
        reads.hear(message.number, message.text);
        break;
      case 'folders':
        keeper.hearFolders(message.folders);
        sayChanged(studies.drop(null));
        break;
      case 'listed':
        listings.hear(message.number, message.reply);
        break;
    }
  }
  return hear;
}

function withItself(document: string, others: readonly string[]): readonly string[] {
  return [...new Set([document, ...others])];
}

interface Asking<Request, Reply> {
  fetch(request: Request): Promise<Reply>;
  hear(number: number, reply: Reply): void;
}

/** What is asked of the front, by number. */
function createAsking<Request, Reply>(ask: (number: number, request: Request) => void): Asking<Request, Reply> {
  const waiting = new Map<number, (reply: Reply) => void>();
  let last = 0;
  return {
    fetch: (request) =>
      new Promise((resolve) => {
        last += 1;
        waiting.set(last, resolve);
        ask(last, request);
      }),
    hear(number, reply) {
      waiting.get(number)?.(reply);
      waiting.delete(number);
    },
  };
}

/** Files that are not open. */
function createReads(say: BackTools['say']): Asking<string, string | null> {
  return createAsking((number, uri) => say({ kind: 'read', number, uri }));
}

function createListings(say: BackTools['say']): Asking<FindFilesRequest, FindFilesReply> {
  return createAsking((number, request) => say({ kind: 'list', number, request }));
}

interface KnownSettings {
  /** Waits until they are known. */
  of(document: string): Promise<EditorSettings>;
  /** Whether they differ from what was known before. */
  hear(document: string, settings: EditorSettings): boolean;
  forget(document: string): void;
}

function createSettings(): KnownSettings {
  const known = new Map<string, EditorSettings>();
  const waiting = new Map<string, ((settings: EditorSettings) => void)[]>();
  return {
    of(document) {
      const settings = known.get(document);
      if (settings !== undefined) return Promise.resolve(settings);
      return new Promise((resolve) => waiting.set(document, [...(waiting.get(document) ?? []), resolve]));
    },
    hear(document, settings) {
      const before = known.get(document);
      known.set(document, settings);
      for (const resolve of waiting.get(document) ?? []) resolve(settings);
      waiting.delete(document);
      return before !== undefined && JSON.stringify(before) !== JSON.stringify(settings);
    },
    forget(document) {
      known.delete(document);
      for (const resolve of waiting.get(document) ?? []) resolve(readSettings(null));
      waiting.delete(document);
    },
  };
}
