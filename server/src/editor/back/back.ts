// The back half: hears of texts, settings and files, and answers questions from studies of them. Keeps no memory of earlier
// questions beyond the studies at hand, which newer text drops. Knows neither Node nor a browser: the parser, a clock and
// the way to the front are handed in.

import type { SliceParser } from '../../syntax/slice-parser';
import { type EditorSettings, readSettings } from '../settings';
import type { BackMessage, FrontMessage } from '../worker-messages';
import { type Answering, answerQuestion } from './answer';
import { createFiles } from './files';
import { type Clockwork, createScheduler, type Owner } from './scheduler';
import { createStudies } from './studies';
import { fileKey } from './uris';

export interface BackTools {
  readonly parser: Promise<SliceParser>;
  readonly clockwork: Clockwork;
  say(message: BackMessage): void;
}

/** Gives what hears the messages of the front. */
export function createBack({ clockwork, parser, say }: BackTools): (message: FrontMessage) => void {
  const reads = createReads(say);
  const files = createFiles(reads.fetch);
  const scheduler = createScheduler(clockwork);
  const settings = createSettings();
  const studies = createStudies({ parser, files, scheduler, settingsOf: settings.of });
  const answering: Answering = { files, scheduler, studies };
  const asked = new Map<number, Owner>();

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
        sayChanged(withItself(message.document, studies.drop([fileKey(message.document)])), message.document);
        break;
      case 'settings':
        if (settings.hear(message.document, message.settings)) sayChanged(studies.drop([fileKey(message.document)]));
        break;
      case 'closed':
        files.hearClosed(message.document);
        settings.forget(message.document);
        studies.forget(message.document);
        sayChanged(studies.drop([fileKey(message.document)]));
        break;
      case 'files-changed':
        files.hearChanged(message.files);
        sayChanged(studies.drop(message.files?.filter(isNotOpen).map(fileKey) ?? null));
        break;
      case 'ask': {
        const { id, question } = message;
        const owner = { urgency: 0 };
        asked.set(id, owner);
        void answerQuestion(answering, question, owner).then((answer) => {
          asked.delete(id);
          say({ kind: 'answer', id, answer });
        });
        break;
      }
      case 'cancel': {
        const owner = asked.get(message.id);
        if (owner !== undefined) scheduler.drop(owner);
        break;
      }
      case 'file':
        reads.hear(message.number, message.text);
        break;
    }
  }
  return hear;
}

function withItself(document: string, others: readonly string[]): readonly string[] {
  return [...new Set([document, ...others])];
}

interface Reads {
  fetch(uri: string): Promise<string | null>;
  hear(number: number, text: string | null): void;
}

/** Files that are not open, asked of the front. */
function createReads(say: BackTools['say']): Reads {
  const waiting = new Map<number, (text: string | null) => void>();
  let last = 0;
  return {
    fetch: (uri) =>
      new Promise((resolve) => {
        last += 1;
        waiting.set(last, resolve);
        say({ kind: 'read', number: last, uri });
      }),
    hear(number, text) {
      waiting.get(number)?.(text);
      waiting.delete(number);
    },
  };
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
