// Finds, in the parser's log, the token that it gave up on. The tree alone only shows what was skipped, which
// often starts earlier or later. Where the log says nothing of use, the caller falls back on the tree.

import type { Failure } from './slice-parser';

export interface LogReader {
  hear(message: string): void;
  /** The furthest token looked at before every reading had failed; null if none failed. */
  failure(): Failure | null;
}

/** `text` is what is being parsed: the log counts rows, and columns in bytes of UTF-16. */
export function readLog(text: string): LogReader {
  const rows = rowStarts(text);
  let position = 0;
  let furthest: Failure = { start: 0, end: 0 };
  let failed = false;
  return {
    hear(message) {
      if (failed) return;
      const place = /^process .*row:(\d+), col:(\d+)/.exec(message);
      if (place !== null) position = rows[Number(place[1])] + Number(place[2]) / 2;
      const token = /size:(\d+)$/.exec(message);
      if (token !== null && message.startsWith('lexed_lookahead')) {
        furthest = later(furthest, withoutLeadingBlank(text, position, position + Number(token[1]) / 2));
      }
      failed = message.startsWith('resume');
    },
    failure: () => (failed ? furthest : null),
  };
}

/** Rows of the parser end at line feeds alone. */
function rowStarts(text: string): readonly number[] {
  const starts = [0];
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) starts.push(end + 1);
  return starts;
}

function later(left: Failure, right: Failure): Failure {
  return right.end >= left.end ? right : left;
}

function withoutLeadingBlank(text: string, start: number, end: number): Failure {
  const blank = /^\s*/.exec(text.slice(start, end));
  return { start: Math.min(end, start + (blank === null ? 0 : blank[0].length)), end };
}
