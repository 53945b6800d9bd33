// Expands one file: conditionals, macros and includes are worked out, other directives obeyed, and every
// character of the result knows where it comes from. Text without a back-tick passes unchanged. A directive,
// and a macro use that yields nothing, leaves one blank that stands for it, so that what is said has a place.

import { firstOffset } from '../text/line-index';
import type { OriginMap } from '../text/origin';
import { finish, markOf, markPaste, markQuote } from './chunks';
import { type Arm, isActive, nextArm, openArm } from './conditionals';
import { expandDirective } from './directive-use';
import type { Settings } from './directives';
import {
  type CarriedState,
  copyStretch,
  emit,
  type ExpansionOptions,
  leaveBlank,
  makeText,
  note,
  openRun,
  type Run,
  type Source,
} from './expansion';
import { nameBehind } from './formal-words';
import { expandUse } from './macro-use';
import { readDefinition, type Stretch } from './macros';
import type { Remark } from './remark';
import { isText } from './is-text';
import { commentEnd, isWordStart, lineEnd, stringEnd, wordEnd } from './tokens';

export interface Expansion {
  readonly text: string;
  readonly map: OriginMap;
  /** Settings in force from an offset of the text on, in order; the first at 0. */
  readonly settings: readonly { readonly offset: number; readonly settings: Settings }[];
  /** Placed in the expanded text. */
  readonly remarks: readonly Remark[];
  /** Candidate paths of includes that are not at hand. */
  readonly wanted: readonly string[];
}

/** `file` indexes the shelf's files; `carried` is what earlier files left, and is changed. */
export function expandFile(file: number, carried: CarriedState, options: ExpansionOptions): Expansion {
  const { text } = options.shelf.files[file];
  const run = openRun(carried, options);
  const source: Source = {
    kind: 'file',
    text,
    file,
    site: null,
    range: null,
    written: null,
    formals: new Map(),
    includeDepth: 0,
    macroDepth: 0,
  };
  const whole = { start: firstOffset(text), end: text.length };
  if (isText(text)) expandStretch(run, source, whole);
  else refuse(run, source, whole);
  const { remarks, settings, wanted } = run;
  return { ...finish(run.main), settings, remarks, wanted: [...wanted] };
}

/** Said once, instead of at every byte that is no word. */
function refuse(run: Run, source: Source, { start }: Stretch): void {
  note(run, 'no-text', {});
  leaveBlank(run, source, { start, end: start + 1 });
}

function expandStretch(run: Run, source: Source, { start, end }: Stretch): void {
  const arms: Arm[] = [];
  for (let offset = start; offset < end && !run.stopped; ) {
    if (source.site === null && run.sink === run.main) run.safe = markOf(run.main);
    if (source.text[offset] === '`') offset = expandMark(run, source, { start: offset, end }, arms);
    else if (isActive(arms)) offset = passPlain(run, source, { start: offset, end });
    else offset = plainEnd(source, { start: offset, end });
  }
  for (const arm of arms) note(run, 'unclosed', { what: `\`${arm.word}`, expected: '`endif' }, arm.opened);
}

/** Text up to the next back-tick or parameter, and that parameter's text. Returns the offset behind it. */
function passPlain(run: Run, source: Source, stretch: Stretch): number {
  const end = plainEnd(source, stretch);
  if (end > stretch.start) {
    copyStretch(run, source, { start: stretch.start, end });
    return end;
  }
  const word = wordEnd(source.text, end);
  for (const chunk of source.formals.get(source.text.slice(end, word)) ?? []) emit(run, chunk);
  return word;
}

/** Where a back-tick or a parameter's name stands, outside comments, strings and escaped names. */
function plainEnd(source: Source, { start, end }: Stretch): number {
  const { text, formals } = source;
  const tick = text.indexOf('`', start);
  if (formals.size === 0 && (tick < 0 || tick >= end)) return end;
  let offset = start;
  while (offset < end) {
    if (formals.size === 0) {
      deciding.lastIndex = offset;
      if (!deciding.test(text)) return end;
      offset = deciding.lastIndex - 1;
    }
    const mark = text[offset];
    if (mark === '`') return offset;
    if (mark === '"') offset = stringEnd(text, offset);
    else if (mark === '/') offset = behindSlash(text, offset);
    else if (mark === '\\') offset = behindEscaped(text, offset);
    else if (formals.size > 0 && isWordStart(text.charCodeAt(offset))) {
      const word = wordEnd(text, offset);
      if (formals.has(text.slice(offset, word))) return offset;
      offset = word;
    } else offset += 1;
  }
  return Math.min(offset, end);
}

/** What may open a comment, a string, an escaped name or a directive. */
const deciding = /[`"/\\]/g;

function behindSlash(text: string, offset: number): number {
  if (text[offset + 1] === '/') return lineEnd(text, offset);
  return text[offset + 1] === '*' ? commentEnd(text, offset) : offset + 1;
}

function behindEscaped(text: string, offset: number): number {
  let end = offset + 1;
  while (end < text.length && text.charCodeAt(end) > 0x20) end += 1;
  return end;
}

/** A back-tick at `start`. Returns the offset behind what it introduces. */
function expandMark(run: Run, source: Source, { start, end }: Stretch, arms: Arm[]): number {
  const wordStop = wordEnd(source.text, start + 1);
  const word = source.text.slice(start + 1, wordStop);
  const directive = { start, end: Math.max(wordStop, start + 1) };
  if (conditionalWords.has(word)) return expandConditional(run, source, directive, arms);
  if (!isActive(arms)) return word === 'define' ? readDefinition(source.text, wordStop).end : directive.end;
  if (word === '') return expandPaste(run, source, start);
  const behind =
    expandDirective(run, source, directive, expandStretch) ?? expandUse(run, source, directive, expandStretch);
  return Math.min(behind, end);
}

/** `` joins what stands around it, `" and `\`" are quotes of a macro's text (IEEE 1800-2017 22.5.1). */
function expandPaste(run: Run, source: Source, start: number): number {
  const mark =
    source.kind === 'macro' ? pasteMarks.find(({ written }) => source.text.startsWith(written, start)) : undefined;
  if (mark === undefined) {
    note(run, 'bad-directive', { directive: '`' });
    leaveBlank(run, source, { start, end: start + 1 });
    return start + 1;
  }
  if (mark.text === '') markPaste(run.sink);
  else makeText(run, source, { start, end: start + mark.written.length }, mark.text);
  if (mark.text === '"') markQuote(run.sink);
  return start + mark.written.length;
}

const pasteMarks: readonly { readonly written: string; readonly text: string }[] = [
  { written: '``', text: '' },
  { written: '`"', text: '"' },
  { written: '`\\`"', text: '\\"' },
];

function expandConditional(run: Run, source: Source, directive: Stretch, arms: Arm[]): number {
  const word = source.text.slice(directive.start + 1, directive.end);
  const condition = conditionOf(run, source, directive, word);
  const whole = { start: directive.start, end: condition.end };
  const wasActive = isActive(arms);
  const opened = run.main.length;
  const fits = followConditional(arms, word, { holds: condition.holds, opened });
  const seen = wasActive || isActive(arms);
  if (seen && !(fits && condition.named)) note(run, 'bad-directive', { directive: `\`${word}` });
  if (seen) leaveBlank(run, source, whole);
  return condition.end;
}

/** False where no open arm fits the word. */
function followConditional(
  arms: Arm[],
  word: string,
  { holds, opened }: { readonly holds: boolean; readonly opened: number },
): boolean {
  if (word === 'endif') return arms.pop() !== undefined;
  if (word === 'elsif' || word === 'else') return nextArm(arms, word, holds);
  openArm(arms, { opened, word }, holds);
  return true;
}

interface Condition {
  readonly holds: boolean;
  /** Whether the name that the word needs was there. */
  readonly named: boolean;
  readonly end: number;
}

function conditionOf(run: Run, source: Source, directive: Stretch, word: string): Condition {
  if (word === 'else' || word === 'endif') return { holds: true, named: true, end: directive.end };
  const { name, end } = nameBehind(source, directive.end);
  const defined = name !== null && run.carried.macros.has(name);
  return { holds: name !== null && defined !== (word === 'ifndef'), named: name !== null, end };
}

const conditionalWords: ReadonlySet<string> = new Set(['ifdef', 'ifndef', 'elsif', 'else', 'endif']);
