// What an editor shows for the name under the pointer: how it is declared, who clocks it, a small drawing over a few periods
// and the account of its last change in the preview, or why it never changes.

import type { Hover, MarkupContent, Position } from 'vscode-languageserver';
import { drawSmall } from '../../drawing/small-picture';
import { anyGround, svgOf } from '../../drawing/svg';
import { visibleText } from '../../drawing/visible-text';
import type { NameUse } from '../../report/name-table';
import { type NameStory, tellName } from '../../report/name-story';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { hoverMacro } from './hover-macro';
import { markdownOf, plainTextOf, type Section } from './markdown';
import { usesAt } from './names-at';
import { rangeOf, touches } from './positions';

export interface HoverOptions {
  readonly format: 'markdown' | 'plaintext';
  /** Whether the client shows pictures in Markdown; one that does not would print their text. */
  readonly pictures: 'shown' | 'left out';
}

export function* hover(
  study: Study,
  path: string,
  position: Position,
  options: HoverOptions,
): Generator<void, Hover | null> {
  const macro = yield* hoverMacro(study, path, position);
  if (macro !== null) return { contents: contentsOf(macro.sections, options), range: macro.range };
  const uses = yield* usesAt(study, path, position);
  const here = uses.find(({ span }) => span.file === path && touches(span, position));
  const story = (yield* tellName(study, uses)) ?? storyOfElsewhere(uses, here);
  if (here === undefined || story === null) return null;
  const pictures =
    story.signal === null || options.pictures === 'left out' ? [] : yield* pictureOf(study, story.signal);
  const sections: readonly Section[] = [
    declarationOf(study, uses),
    ...pictures,
    { kind: 'facts', lines: shortened(story.facts, 'more like it') },
    { kind: 'account', lines: shortened(story.account, 'more causes, back to the drive') },
  ];
  const filled = sections.filter((section) => section.kind === 'picture' || section.lines.length > 0);
  return { contents: contentsOf(filled, options), range: rangeOf(here.span) };
}

/** A unit, parameter or function that is declared in another line is worth its declaration. */
function storyOfElsewhere(uses: readonly NameUse[], here: NameUse | undefined): NameStory | null {
  const isDeclared = uses.some(({ role }) => role === 'declared');
  const isTold = here?.isModule === true || here?.what === 'parameter' || here?.what === 'subroutine';
  return isDeclared && isTold && here.role !== 'declared' ? { signal: null, facts: [], account: [] } : null;
}

function contentsOf(sections: readonly Section[], { format }: HoverOptions): MarkupContent {
  return { kind: format, value: format === 'markdown' ? markdownOf(sections) : plainTextOf(sections) };
}

const mostDeclarations = 2;
const longestLine = 160;

/** The lines that declare the name, as they are written. */
function declarationOf(study: Study, uses: readonly NameUse[]): Section {
  const declared = uses.filter(({ role }) => role === 'declared').map(({ span }) => span);
  const lines = declared.map(
    ({ file, line }) =>
      textOf(study, file)
        .split(/\r\n|\n|\r/)
        [line - 1]?.trim() ?? '',
  );
  const short = [...new Set(lines)].filter((line) => line !== '').slice(0, mostDeclarations);
  return {
    kind: 'code',
    lines: short.map((line) => (line.length > longestLine ? `${line.slice(0, longestLine)} …` : line)),
  };
}

/** What comes last matters least: the upper bits of a vector, the drive at the end of the causes. */
const mostLines = 5;

function shortened(lines: readonly string[], rest: string): readonly string[] {
  if (lines.length <= mostLines + 1) return lines;
  return [...lines.slice(0, mostLines), `and ${lines.length - mostLines} ${rest}`];
}

/** Editors cut hovers at about 100,000 characters; a picture that takes more than half of that is left out. */
const longestAddress = 50_000;

function* pictureOf(study: Study, signal: string): Generator<void, readonly Section[]> {
  const picture = drawSmall(yield* (yield* study.soon()).preview(), signal);
  if (picture === null) return [];
  const what = `${visibleText(signal)} over time`;
  const address = `data:image/svg+xml;base64,${base64Of(svgOf(picture, what, anyGround))}`;
  return address.length > longestAddress ? [] : [{ kind: 'picture', address, what }];
}

function base64Of(text: string): string {
  return btoa(Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join(''));
}
