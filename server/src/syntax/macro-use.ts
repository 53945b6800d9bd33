// A macro use: its arguments are expanded where they stand, then its text, in which they take the places of
// the parameters (IEEE 1364-2005 19.3.1). A use inside its own text is refused.

import type { Site, WrittenAt } from '../text/origin';
import type { FileOffset } from '../text/place';
import { type Chunk, emptySink, markEdge } from './chunks';
import { type DefinedMacro, leaveBlank, note, type Run, type Source, spend, typedRange } from './expansion';
import type { Expander } from './include-directive';
import { type Macro, type MacroText, readArguments, type Stretch } from './macros';
import { skipBlank } from './tokens';

/** `use` is back-tick and name. Returns the offset behind the use. */
export function expandUse(run: Run, source: Source, use: Stretch, expand: Expander): number {
  const name = source.text.slice(use.start + 1, use.end);
  const macro = run.carried.macros.get(name);
  spend(run, source, use, 1);
  const flawed = macro === undefined || !mayUse(run, source, name);
  if (macro === undefined) note(run, run.carried.definitions.has(name) ? 'removed-macro' : 'unknown-macro', { name });
  const args = flawed ? null : readUseArguments(run, source, use, macro);
  if (macro === undefined || args === null) {
    leaveBlank(run, source, use);
    return use.end;
  }
  const whole = { start: use.start, end: args.end };
  const site: Site = { kind: 'macro', name, range: typedRange(source, whole), outer: source.site };
  const body: Source = {
    ...source,
    kind: 'macro',
    text: macro.body.text,
    site,
    range: site.range,
    written: writtenAt(macro, macro.body),
    formals: new Map(),
    macroDepth: source.macroDepth + 1,
  };
  const formals = bindArguments(run, source, { macro, items: args.items, body }, expand);
  expandBody(run, { ...body, formals }, whole, expand);
  return args.end;
}

function writtenAt({ file }: DefinedMacro, { start }: MacroText): WrittenAt | null {
  return file === null ? null : { file, start: start as FileOffset };
}

function expandBody(run: Run, body: Source, whole: Stretch, expand: Expander): void {
  const before = run.sink.length;
  markEdge(run.sink);
  expand(run, body, { start: 0, end: body.text.length });
  if (run.sink.length === before) leaveBlank(run, body, whole);
  markEdge(run.sink);
}

/** Deeper than this expansion would itself run out of stack, whatever the setting. */
const deepestUse = 500;

function mayUse(run: Run, source: Source, name: string): boolean {
  const macroDepth = Math.min(run.options.limits.macroDepth, deepestUse);
  const recursive = isInside(source.site, name);
  if (recursive) note(run, 'recursive-macro', { name });
  else if (source.macroDepth >= macroDepth) note(run, 'limit', { limit: 'macroDepth', value: macroDepth });
  return !recursive && source.macroDepth < macroDepth;
}

function isInside(innermost: Site | null, name: string): boolean {
  for (let site = innermost; site !== null && site.kind === 'macro'; site = site.outer)
    if (site.name === name) return true;
  return false;
}

interface UseArguments {
  readonly items: readonly Stretch[];
  readonly end: number;
}

/** Null where they do not fit the macro; that has been said. */
function readUseArguments(run: Run, source: Source, use: Stretch, macro: Macro): UseArguments | null {
  if (macro.parameters === null) return { items: [], end: use.end };
  const open = skipBlank(source.text, use.end);
  const list = source.text[open] === '(' ? readArguments(source.text, open) : null;
  spend(run, source, use, (list?.end ?? source.text.length) - open);
  const items = list === null ? [] : withoutLoneBlank(list.items, macro.parameters.length);
  if (list !== null && fits(items.length, macro)) return { items, end: list.end };
  note(run, 'macro-arguments', { name: macro.name, expected: macro.parameters.length, found: items.length });
  return null;
}

/** `M() hands a macro without parameters nothing, and one with a parameter an empty text. */
function withoutLoneBlank(items: readonly Stretch[], expected: number): readonly Stretch[] {
  return expected === 0 && items.length === 1 && items[0].start === items[0].end ? [] : items;
}

/** Fewer are enough where the rest have a text to fall back on (IEEE 1800-2017 22.5.1). */
function fits(found: number, macro: Macro): boolean {
  const parameters = macro.parameters ?? [];
  return found <= parameters.length && parameters.slice(found).every((parameter) => parameter.fallback !== null);
}

interface Binding {
  readonly macro: DefinedMacro;
  readonly items: readonly Stretch[];
  /** Where the text of a fallback counts as standing. */
  readonly body: Source;
}

function bindArguments(
  run: Run,
  source: Source,
  { macro, items, body }: Binding,
  expand: Expander,
): ReadonlyMap<string, readonly Chunk[]> {
  const formals = new Map<string, readonly Chunk[]>();
  for (const [index, { name, fallback }] of (macro.parameters ?? []).entries()) {
    const item = items[index];
    const isEmpty = item === undefined || item.start === item.end;
    if (!isEmpty) formals.set(name, capture(run, source, item, expand));
    else formals.set(name, fallback === null ? [] : captureFallback(run, { macro, fallback, body }, expand));
  }
  return formals;
}

interface Fallback extends Omit<Binding, 'items'> {
  readonly fallback: MacroText;
}

function captureFallback(run: Run, { macro, fallback, body }: Fallback, expand: Expander): readonly Chunk[] {
  const { text } = fallback;
  return capture(run, { ...body, text, written: writtenAt(macro, fallback) }, { start: 0, end: text.length }, expand);
}

export function capture(run: Run, source: Source, stretch: Stretch, expand: Expander): readonly Chunk[] {
  const outer = run.sink;
  run.sink = emptySink();
  // Arguments inside arguments nest like uses inside uses.
  expand(run, { ...source, macroDepth: source.macroDepth + 1 }, stretch);
  const { chunks } = run.sink;
  run.sink = outer;
  return chunks;
}
