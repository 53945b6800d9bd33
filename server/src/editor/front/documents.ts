// The texts of open documents as the client last sent them, edit by edit. Places are those of the protocol: lines and
// characters from zero, in UTF-16 units.

import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { indexLines, indexLinesAgain, type LineIndex } from '../../text/line-index';
import { offsetIn } from '../features/positions';

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
  /** Of documents that were edited. */
  const lined = new Map<string, LineIndex>();
  return {
    all: () => [...open.values()],
    get: (uri) => open.get(uri) ?? null,
    put(document) {
      open.set(document.uri, document);
      lined.delete(document.uri);
    },
    change(uri, version, changes) {
      const before = open.get(uri);
      if (before === undefined) return null;
      const { lines, text } = changes.reduce(applyTo, { text: before.text, lines: lined.get(uri) ?? null });
      const changed = { uri, version, text, isUntouched: false };
      open.set(uri, changed);
      if (lines === null) lined.delete(uri);
      else lined.set(uri, lines);
      return changed;
    },
    close(uri) {
      open.delete(uri);
      lined.delete(uri);
    },
  };
}

interface Lined {
  readonly text: string;
  /** Null until an edit has asked for them. */
  readonly lines: LineIndex | null;
}

/** Each change is about the text that the one before has left. */
export function applyChange(text: string, change: TextDocumentContentChangeEvent): string {
  return applyTo({ text, lines: null }, change).text;
}

function applyTo({ lines: known, text }: Lined, change: TextDocumentContentChangeEvent): Lined {
  if (!('range' in change)) return { text: change.text, lines: null };
  const lines = known ?? indexLines(text);
  const start = offsetIn(text, lines, change.range.start);
  const end = Math.max(start, offsetIn(text, lines, change.range.end));
  const changed = text.slice(0, start) + change.text + text.slice(end);
  return { text: changed, lines: indexLinesAgain(lines, text, changed) };
}
