// The texts that studies are made of: open documents as they stand in the editor, other files as the front reads them, each
// read once until it is said to have changed. A file that is not there is remembered too.

import { fileKey } from './uris';

export interface Files {
  /** The text of an open document. */
  openText(document: string): string | null;
  read(uri: string): Promise<string | null>;
  hearText(document: string, text: string): void;
  hearClosed(document: string): void;
  /** null: perhaps any. */
  hearChanged(files: readonly string[] | null): void;
}

/** `fetch` reads a file that is not open. */
export function createFiles(fetch: (uri: string) => Promise<string | null>): Files {
  const open = new Map<string, string>();
  const kept = new Map<string, Promise<string | null>>();

  return {
    openText: (document) => open.get(fileKey(document)) ?? null,
    read(uri) {
      const key = fileKey(uri);
      const text = open.get(key);
      if (text !== undefined) return Promise.resolve(text);
      const reading = kept.get(key) ?? fetch(uri);
      kept.set(key, reading);
      return reading;
    },
    hearText: (document, text) => void open.set(fileKey(document), text),
    hearClosed(document) {
      open.delete(fileKey(document));
      // What was open may have been saved meanwhile.
      kept.delete(fileKey(document));
    },
    hearChanged(files) {
      if (files === null) kept.clear();
      else for (const file of files) kept.delete(fileKey(file));
    },
  };
}
