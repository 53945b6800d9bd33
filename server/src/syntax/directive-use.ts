// Directives that are neither conditionals nor macro uses: definitions, includes, and those that set what
// holds from here on. Each leaves a blank in its place.

import { isSettingWord, obeyDirective } from './directives';
import { type DefinedMacro, type DefinitionAt, leaveBlank, makeText, note, type Run, type Source } from './expansion';
import { nameBehind, withFormals } from './formal-words';
import { type Expander, includeFile } from './include-directive';
import { lineOf, positionIn, renumber } from './line-directive';
import { capture } from './macro-use';
import { type Macro, type MacroText, readArguments, readDefinition, skipLineBlank, type Stretch } from './macros';
import { skipProtected } from './protected-text';
import { lineEnd, wordEnd } from './tokens';

/** Returns the offset behind the directive; null where the word is none, so a macro's name. */
export function expandDirective(run: Run, source: Source, directive: Stretch, expand: Expander): number | null {
  const word = source.text.slice(directive.start + 1, directive.end);
  switch (word) {
    case 'define':
      return define(run, source, directive);
    case 'undef':
      return undefine(run, source, directive);
    case 'undefineall':
      run.carried.macros.clear();
      return leaveFor(run, source, directive, directive.end);
    case 'include':
      return include(run, source, directive, expand);
    case '__FILE__':
      makeText(run, source, directive, JSON.stringify(positionIn(run, source, directive).path));
      return directive.end;
    case '__LINE__':
      makeText(run, source, directive, String(positionIn(run, source, directive).line));
      return directive.end;
    case 'line':
      return renumber(run, source, directive);
    default:
      return skipProtected(run, source, directive) ?? obey(run, source, directive, expand);
  }
}

function define(run: Run, source: Source, directive: Stretch): number {
  const { macro, end } = readDefinitionIn(source, directive.end);
  const isOwn = macro !== null && !directiveWords.has(macro.name) && !isSettingWord(macro.name);
  if (isOwn) remember(run, macro, lineOf(run, source, directive));
  else note(run, 'bad-directive', { directive: '`define' });
  return leaveFor(run, source, directive, end);
}

/** Where the first definition of a name stands is kept, for a use before it. */
function remember({ carried }: Run, macro: DefinedMacro, at: DefinitionAt): void {
  carried.macros.set(macro.name, macro);
  if (!carried.definitions.has(macro.name)) carried.definitions.set(macro.name, at);
}

/** Inside a macro's text its parameters are replaced first, so that what is left of its places means nothing. */
function readDefinitionIn(source: Source, from: number): { readonly macro: DefinedMacro | null; readonly end: number } {
  const { macro, end } = readDefinition(source.text, from);
  if (source.formals.size > 0) {
    const replaced = readDefinition(withFormals(source, { start: from, end }), 0).macro;
    return { macro: replaced === null ? null : { ...replaced, file: null }, end };
  }
  if (macro === null) return { macro, end };
  if (source.kind === 'file') return { macro: { ...macro, file: source.file }, end };
  return { macro: movedInto(source, macro), end };
}

/** A definition in the text of a macro stands where that text is written. */
function movedInto({ written }: Source, macro: Macro): DefinedMacro {
  if (written === null) return { ...macro, file: null };
  const move = (text: MacroText): MacroText => ({ ...text, start: written.start + text.start });
  const parameters = macro.parameters?.map((each) => ({
    ...each,
    fallback: each.fallback === null ? null : move(each.fallback),
  }));
  return { ...macro, body: move(macro.body), parameters: parameters ?? null, file: written.file };
}

function undefine(run: Run, source: Source, directive: Stretch): number {
  const { name, end } = nameBehind(source, directive.end);
  if (name !== null) run.carried.macros.delete(name);
  else note(run, 'bad-directive', { directive: '`undef' });
  return leaveFor(run, source, directive, name === null ? directive.end : end);
}

/** "file", <file>, or a macro that stands for either (IEEE 1800-2017 22.4). */
function include(run: Run, source: Source, directive: Stretch, expand: Expander): number {
  const start = skipLineBlank(source.text, directive.end);
  const use = source.text[start] === '`' ? useFrom(source.text, start) : null;
  const line = use === null ? source.text.slice(start, lineEnd(source.text, start)) : textOf(run, source, use, expand);
  const name = /^\s*(?:"([^"]+)"|<([^>]+)>)/.exec(line);
  const end = use === null ? start + (name === null ? 0 : name[0].length) : use.end;
  const written = name === null ? null : (name[1] ?? name[2]);
  const place = name?.[2] === undefined ? 'beside' : 'folders';
  includeFile(run, source, { start: directive.start, end, written, place }, expand);
  return end;
}

/** A macro's name and, right behind it, its arguments. */
function useFrom(text: string, start: number): Stretch {
  const end = wordEnd(text, start + 1);
  const list = text[end] === '(' ? readArguments(text, end) : null;
  return { start, end: list?.end ?? end };
}

function textOf(run: Run, source: Source, stretch: Stretch, expand: Expander): string {
  return capture(run, source, stretch, expand)
    .map((chunk) => chunk.text)
    .join('');
}

/** What stands behind the directive on its line may come from macros. */
function obey(run: Run, source: Source, directive: Stretch, expand: Expander): number | null {
  const word = source.text.slice(directive.start + 1, directive.end);
  if (!isSettingWord(word)) return null;
  const line = source.text.slice(directive.end, lineEnd(source.text, directive.end));
  const comment = line.search(/\/[/*]/);
  const written = comment < 0 ? line : line.slice(0, comment);
  const whole = { start: directive.end, end: directive.end + written.length };
  const isPlain = !written.includes('`');
  const rest = isPlain ? written : textOf(run, source, whole, expand);
  const { settings, length, flaw } = obeyDirective(word, rest, run.carried.settings);
  run.carried.settings = settings;
  run.settings.push({ offset: run.main.length, settings });
  if (flaw !== null) note(run, flaw, { directive: `\`${word}` });
  return leaveFor(run, source, directive, isPlain || length === 0 ? directive.end + length : whole.end);
}

function leaveFor(run: Run, source: Source, directive: Stretch, end: number): number {
  leaveBlank(run, source, { start: directive.start, end });
  return end;
}

/** Words that no macro may take (IEEE 1364-2005 19.3.1). */
const directiveWords: ReadonlySet<string> = new Set([
  'define',
  'undef',
  'undefineall',
  'include',
  'ifdef',
  'ifndef',
  'elsif',
  'else',
  'endif',
  '__FILE__',
  '__LINE__',
  'line',
]);
