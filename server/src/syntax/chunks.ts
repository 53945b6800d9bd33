// Expanded text while it is being made: a list of pieces that each know where they come from. A piece is
// either copied from a file, character by character, or made by a macro use, which stands for all of it.

import { mapOrigins, type OriginMap, type Segment, type Site, type WrittenAt } from '../text/origin';
import type { FileRange } from '../text/place';
import { isWordPart } from './tokens';

export interface Chunk {
  readonly text: string;
  readonly kind: Segment['kind'];
  readonly range: FileRange;
  readonly site: Site | null;
  /** Where text of a macro is written in its definition. */
  readonly written: WrittenAt | null;
}

export interface Sink {
  readonly chunks: Chunk[];
  /** Characters so far. */
  length: number;
  /** The edge of a macro use lies here: what comes next is another word, whatever its letters. */
  edge: boolean;
  /** A paste mark stood here: what comes next continues the word before. */
  pasted: boolean;
  /** Between quotes that a macro's text makes: no blanks of ours. */
  quoted: boolean;
}

export function emptySink(): Sink {
  return { chunks: [], length: 0, edge: false, pasted: false, quoted: false };
}

/**
 * Appends a chunk. Text of a macro never runs together with its neighbors into one word, because a use is a
 * token of its own (IEEE 1364-2005 19.3.1): a blank parts them.
 */
export function append(sink: Sink, chunk: Chunk): void {
  if (chunk.text === '') return;
  if (sink.edge && joinsWord(sink, chunk)) push(sink, { ...chunk, kind: 'made', text: ' ', written: null });
  push(sink, chunk);
  sink.edge = false;
  sink.pasted = false;
}

export function markEdge(sink: Sink): void {
  sink.edge = !sink.pasted && !sink.quoted;
}

/** A quote that a macro's text makes: it opens a string or closes it. */
export function markQuote(sink: Sink): void {
  sink.quoted = !sink.quoted;
  sink.edge = false;
}

export function markPaste(sink: Sink): void {
  sink.pasted = true;
  sink.edge = false;
}

/** A state of a sink to come back to. */
export interface SinkMark {
  readonly chunks: number;
  readonly length: number;
}

export function markOf(sink: Sink): SinkMark {
  return { chunks: sink.chunks.length, length: sink.length };
}

export function rewind(sink: Sink, mark: SinkMark): void {
  sink.chunks.length = mark.chunks;
  sink.length = mark.length;
}

/** The whole text, and the map from its offsets to the files. */
export function finish(sink: Sink): { readonly text: string; readonly map: OriginMap } {
  let offset = 0;
  const segments: Segment[] = [];
  for (const { text, kind, range, site, written } of sink.chunks) {
    segments.push({ offset, kind, range, site, written });
    offset += text.length;
  }
  return { text: sink.chunks.map((chunk) => chunk.text).join(''), map: mapOrigins(segments) };
}

function push(sink: Sink, chunk: Chunk): void {
  sink.chunks.push(chunk);
  sink.length += chunk.text.length;
}

function joinsWord(sink: Sink, chunk: Chunk): boolean {
  const last = sink.chunks[sink.chunks.length - 1];
  return (
    last !== undefined && isWordPart(last.text.charCodeAt(last.text.length - 1)) && isWordPart(chunk.text.charCodeAt(0))
  );
}
