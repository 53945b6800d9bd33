// What an editor shows for a macro under the pointer: its definitions as they are written, and what this use has become.

import type { Position, Range } from 'vscode-languageserver';
import { macroUses } from '../../report/directive-at';
import { macroExpansion } from '../../report/macro-expansion';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import type { Section } from './markdown';
import { offsetAt, rangeBetween } from './positions';

export interface MacroHover {
  readonly sections: readonly Section[];
  readonly range: Range;
}

const mostLines = 6;
const longestExpansion = 160;

/** Null where no macro stands that any file of the study defines. */
export function* hoverMacro(study: Study, path: string, position: Position): Generator<void, MacroHover | null> {
  const text = textOf(study, path);
  const offset = offsetAt(text, position);
  const here = macroUses(text).find(({ end, start }) => start - 1 <= offset && offset <= end);
  if (here === undefined) return null;
  const reading = yield* study.reading();
  const lines = reading.files.flatMap((file) => definitionsIn(file.text, here.name));
  if (lines.length === 0) return null;
  const made = text[here.start - 1] === '`' ? macroExpansion(reading, path, here.start - 1) : null;
  const facts = made === null ? [] : [made === '' ? 'becomes nothing here' : `becomes ${shortened(made)}`];
  return {
    range: rangeBetween(text, here.start, here.end),
    sections: [
      { kind: 'code', lines: lines.slice(0, mostLines) },
      ...(facts.length === 0 ? [] : [{ kind: 'facts' as const, lines: facts }]),
    ],
  };
}

/** A backslash at the end of a line carries a definition on (IEEE 1364-2005 19.3.1). */
function definitionsIn(text: string, name: string): readonly string[] {
  return macroUses(text)
    .filter((each) => each.isDefinition && each.name === name)
    .flatMap(({ start }) => {
      const from = text.lastIndexOf('`', start);
      const [definition] = /^(?:.*\\(?:\r\n|\r|\n))*.*/.exec(text.slice(from)) ?? [''];
      return definition.split(/\r\n|\r|\n/);
    });
}

function shortened(words: string): string {
  return words.length <= longestExpansion ? words : `${words.slice(0, longestExpansion)} …`;
}
