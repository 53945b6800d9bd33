// The texts of open documents as the client last sent them, edit by edit. Places are those of the protocol: lines and
// characters from zero, in UTF-16 units.

import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { offsetAt } from '../features/positions';

export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  /** As it was opened. */
  readonly isUntouched: boolean;
}

export interface Documents {
  all(): readonly OpenDocument[];
  get(uri: string): OpenDocument | null;
  /** Opens a document or replaces it. */
  put(document: OpenDocument): void;
  /** Null where no such document is open. */
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): OpenDocument | null;
  close(uri: string): void;
}

export function createDocuments(): Documents {
  const open = new Map<string, OpenDocument>();
  return {
    all: () => [...open.values()],
    get: (uri) => open.get(uri) ?? null,
    put: (document) => void open.set(document.uri, document),
    change(uri, version, changes) {
      const before = open.get(uri);
      if (before === undefined) return null;
      const changed = { uri, version, text: changes.reduce(applyChange, before.text), isUntouched: false };
      open.set(uri, changed);
      return changed;
    },
    close: (uri) => void open.delete(uri),
  };
}

/** Each change is about the text that the one before has left. */
export function applyChange(text: string, change: TextDocumentContentChangeEvent): string {
  if (!('range' in change)) return change.text;
  const start = offsetAt(text, change.range.start);
  const end = Math.max(start, offsetAt(text, change.range.end));
  return text.slice(0, start) + change.text + text.slice(end);
}
