// `$readmemh` and `$readmemb` in an initial block (IEEE 1364-2005 17.2.9): words of an array take their start values from a
// file. A file that is not at hand is asked for; until it is there, the words start unknown.

import { allX, type Bits } from '../netlist/four-state';
import type { At, Expression, Statement } from '../syntax/tables';
import { signalsOf } from './assigned-signals';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { type MemoryWord, readMemoryFile } from './memory-file';
import type { ModuleDraft } from './module-draft';
import { type ArrayEntity, lookUp } from './scope';
import type { Store } from './start-store';

type Call = Extract<Statement, { kind: 'call' }>;

export function isMemoryTask(name: string): boolean {
  return name === '$readmemh' || name === '$readmemb';
}

/** False where the call is of a form that is not followed. */
export function loadMemory(draft: ModuleDraft, context: ExpressionContext, store: Store, call: Call): boolean {
  const [file, target, ...bounds] = call.args;
  const array = target === undefined ? null : arrayOf(context, target);
  const path = file === undefined ? null : textIn(context, file);
  if (array === null || path === null || array.dimensions.length !== 1 || bounds.length > 2) return false;
  const range = rangeOf(context, array, bounds);
  if (range === null) return false;
  if (array.words === null && array.memory === null) return true;
  const { log, source } = draft;
  const text = draft.dataFile(path, source.unit);
  if (text === null) {
    log.add('missing-data-file', { path }, source.place(file.at));
    for (const signal of signalsOf(array)) store.write(signal, 0, allX(signal.shape.width), call.at);
    return true;
  }
  const words = readMemoryFile(text, call.name.name === '$readmemh' ? 'h' : 'b', array.shape.width);
  const loading = startLoading(store, array, call.at);
  const stray = placeWords(array, range, words, loading.put);
  loading.end();
  if (stray !== null) log.add('bad-data-file', { path, text: stray }, source.place(file.at));
  return true;
}

interface PlacedWord {
  readonly position: number;
  readonly value: Bits;
}

/** Puts the words that lie in the range and in the array; gives what is no number and ends the file. */
function placeWords(
  { dimensions: [{ first, size }] }: ArrayEntity,
  range: { readonly from: number; readonly until: number },
  words: Generator<MemoryWord, string | null>,
  put: (word: PlacedWord) => void,
): string | null {
  const step = range.from <= range.until ? 1 : -1;
  let next = range.from;
  for (;;) {
    const read = words.next();
    if (read.done === true) return read.value;
    const { address, value } = read.value;
    const index = address ?? next;
    const position = index - first;
    const isInside = index >= Math.min(range.from, range.until) && index <= Math.max(range.from, range.until);
    if (position >= 0 && position < size && isInside) put({ position, value });
    next = index + step;
  }
}

/** Words loaded into a content together. */
const mostTogether = 4_096;

/** Where words go: each into its signal, or many ascending ones into a content at once. Of several for one the last counts. */
function startLoading(store: Store, { words, memory }: ArrayEntity, at: At) {
  if (memory === null) {
    return {
      put: ({ position, value }: PlacedWord) => store.write((words ?? [])[position], 0, value, at),
      end: () => {},
    };
  }
  const { signal, contents } = memory;
  let content = store.reader.read(signal, 0, signal.shape.width, at);
  let waiting: PlacedWord[] = [];
  const load = (): void => {
    content = contents.load(content, waiting);
    waiting = [];
  };
  return {
    put(word: PlacedWord): void {
      const last = waiting.at(-1);
      if (waiting.length >= mostTogether || (last !== undefined && last.position >= word.position)) load();
      waiting.push(word);
    },
    end(): void {
      load();
      store.write(signal, 0, content, at);
    },
  };
}

function arrayOf({ scope }: ExpressionContext, target: Expression): ArrayEntity | null {
  const entity = target.kind === 'name' ? lookUp(scope, target.name) : null;
  return entity?.kind === 'array' ? entity : null;
}

/** A string, or a parameter that holds one: eight bits a character, zeros before the first (4.2.3.3). */
function textIn(context: ExpressionContext, expression: Expression): string | null {
  if (expression.kind === 'string') return expression.text;
  const value = context.constant(expression);
  if (value?.kind !== 'bits') return null;
  const codes: number[] = [];
  for (let low = 0; low < value.bits.width; low += 8) codes.unshift((value.bits.a[low >>> 5] >>> (low & 31)) & 0xff);
  return String.fromCharCode(...codes.filter((code) => code !== 0));
}

/** Addresses from the first given, or the lowest, to the last given, or the highest. */
function rangeOf(
  context: ExpressionContext,
  { dimensions: [{ first, size }] }: ArrayEntity,
  bounds: readonly Expression[],
) {
  const [from, until] = bounds.map((bound) => {
    const value = context.constant(bound);
    return value === null ? null : integerOf(value);
  });
  if (from === null || until === null) return null;
  return { from: from ?? first, until: until ?? first + size - 1 };
}
