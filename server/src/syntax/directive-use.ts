// Directives that are neither conditionals nor macro uses: definitions, includes, and those that set what
// holds from here on. Each leaves a blank in its place.

import { obeyDirective } from './directives';
import { leaveBlank, makeText, note, type Run, type Source } from './expansion';
import { type Expander, includeFile } from './include-directive';
import { capture } from './macro-use';
import { readDefinition, skipLineBlank, type Stretch } from './macros';
import { isWordStart, lineEnd, wordEnd } from './tokens';

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
      makeText(run, source, directive, JSON.stringify(run.options.shelf.files[source.file].path));
      return directive.end;
    case '__LINE__':
      makeText(run, source, directive, String(lineOf(run, source, directive)));
      return directive.end;
    default:
      return obey(run, source, directive, word);
  }
}

function define(run: Run, source: Source, directive: Stretch): number {
  const { macro, end } = readDefinition(source.text, directive.end);
  const isOwn =
    macro !== null && !directiveWords.has(macro.name) && obeyDirective(macro.name, '', run.carried.settings) === null;
  if (isOwn) run.carried.macros.set(macro.name, macro);
  else note(run, 'bad-directive', { directive: '`define' });
  return leaveFor(run, source, directive, end);
}

function undefine(run: Run, source: Source, directive: Stretch): number {
  const start = skipLineBlank(source.text, directive.end);
  const end = wordEnd(source.text, start);
  const isNamed = isWordStart(source.text.charCodeAt(start));
  if (isNamed) run.carried.macros.delete(source.text.slice(start, end));
  else note(run, 'bad-directive', { directive: '`undef' });
  return leaveFor(run, source, directive, isNamed ? end : directive.end);
}

/** "file", <file>, or a macro that stands for either (IEEE 1800-2017 22.4). */
function include(run: Run, source: Source, directive: Stretch, expand: Expander): number {
  const start = skipLineBlank(source.text, directive.end);
  const line = source.text.slice(start, lineEnd(source.text, start));
  const isMacro = line.startsWith('`');
  const word = isMacro ? (/^`\w*/.exec(line)?.[0] ?? '') : '';
  const name = isMacro ? textOfMacro(run, source, { start, end: start + word.length }, expand) : line;
  const written = /^\s*(?:"([^"]+)"|<([^>]+)>)/.exec(name);
  const end = isMacro ? start + word.length : start + (written === null ? 0 : written[0].length);
  includeFile(
    run,
    source,
    { start: directive.start, end, written: written === null ? null : (written[1] ?? written[2]) },
    expand,
  );
  return end;
}

function textOfMacro(run: Run, source: Source, use: Stretch, expand: Expander): string {
  return capture(run, source, use, expand)
    .map((chunk) => chunk.text)
    .join('');
}

function obey(run: Run, source: Source, directive: Stretch, word: string): number | null {
  const line = source.text.slice(directive.end, lineEnd(source.text, directive.end));
  const comment = line.search(/\/[/*]/);
  const effect = obeyDirective(word, comment < 0 ? line : line.slice(0, comment), run.carried.settings);
  if (effect === null) return null;
  run.carried.settings = effect.settings;
  run.settings.push({ offset: run.main.length, settings: effect.settings });
  if (effect.flaw !== null) note(run, effect.flaw, { directive: `\`${word}` });
  return leaveFor(run, source, directive, directive.end + effect.length);
}

function leaveFor(run: Run, source: Source, directive: Stretch, end: number): number {
  leaveBlank(run, source, { start: directive.start, end });
  return end;
}

/** The line, from one, of the use in its file. */
function lineOf(run: Run, source: Source, directive: Stretch): number {
  const offset = source.range === null ? directive.start : source.range.start;
  return run.options.shelf.files[source.file].text.slice(0, offset).split(/\r\n|\r|\n/).length;
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
]);
