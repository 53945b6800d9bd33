// Arrays of nets and variables (IEEE 1364-2005 4.9). Either every word becomes a signal with its index in its name, clocked,
// started and predicted like any other, or the array is one signal that holds a content. What is larger than both allow is
// known by name and size; what is read from it is unknown, and that is said.

import type { Declarator } from '../syntax/tables';
import { contextIn } from './constants';
import { declaredRange } from './declared-shape';
import { contentBits, createMemoryContents } from '../netlist/memory-contents';
import type { DeclaredRange, LocalSignal, SignalShape } from './local-signal';
import { addSignal, type ModuleDraft } from './module-draft';
import type { ArrayDimension, ArrayEntity, ArrayMemory, Scope } from './scope';

/** Bits of one array that are followed word by word: words tell more, a content costs nothing for what nobody touches. */
const mostBits = 8_192;

/** Null where nothing can be told of it; else its start value is still to be set. */
export function declareArray(
  draft: ModuleDraft,
  scope: Scope,
  declarator: Declarator,
  { dimensions: ofType, ...shape }: SignalShape,
  port: LocalSignal['port'],
): ArrayEntity | null {
  const { name: at } = declarator;
  const { name } = at;
  const dimensions = dimensionsOf(draft, scope, declarator, ofType ?? []);
  if (dimensions === null) {
    scope.names.set(name, { kind: 'hole', at, complaint: -1 });
    return null;
  }
  const count = dimensions.reduce((product, { size }) => product * size, 1);
  const isContent = port === null && isKeptAsContent(scope, shape, count);
  const complaint = complaintOf(draft, declarator, { words: count, width: shape.width, isContent });
  const isFollowed = complaint === null;
  const layout = { dimensions, count, port };
  const words = isFollowed && !isContent ? addWords(draft, scope, declarator, shape, layout) : null;
  const memory = isFollowed && isContent ? addMemory(draft, scope, declarator, shape, dimensions) : null;
  const array: ArrayEntity = { kind: 'array', at, name, dimensions, shape, words, memory, complaint: complaint ?? -1 };
  scope.names.set(name, array);
  draft.arrays.push({ array, path: `${scope.prefix}${name}` });
  return array;
}

/** Null where a range is no constant: that has been said. */
function dimensionsOf(
  draft: ModuleDraft,
  scope: Scope,
  { dimensions }: Declarator,
  ofType: readonly DeclaredRange[],
): ArrayDimension[] | null {
  const found: DeclaredRange[] = [];
  for (const table of dimensions) {
    const range = declaredRange(contextIn(draft, scope), table, 'memoryWords');
    if (range === null) return null;
    found.push(range);
  }
  return [...found, ...ofType].map(({ msb, lsb, width }) => ({
    first: Math.min(msb, lsb),
    size: width,
    descends: msb > lsb,
  }));
}

/** Null where the words can be followed. */
function complaintOf(
  { log, limits, source }: ModuleDraft,
  { name: { name, ...at } }: Declarator,
  { words, width, isContent }: { readonly words: number; readonly width: number; readonly isContent: boolean },
): number | null {
  if (words > limits.memoryWords) {
    return log.add('limit', { limit: 'memoryWords', value: limits.memoryWords, name }, source.place(at));
  }
  if (isContent || words * width <= mostBits) return null;
  return log.add('large-memory', { name, words, width, bits: mostBits }, source.place(at));
}

/** Nets have drivers word by word, and what is inside a function or task does not outlive the call. */
function isKeptAsContent({ isPrivate }: Scope, { kind, width }: SignalShape, words: number): boolean {
  return kind !== 'net' && !isPrivate && words * width > mostBits;
}

function addMemory(
  draft: ModuleDraft,
  scope: Scope,
  { name }: Declarator,
  { width }: SignalShape,
  dimensions: readonly ArrayDimension[],
): ArrayMemory {
  const bits = contentBits;
  const shape = {
    kind: 'variable',
    type: 'reg',
    width: bits,
    msb: bits - 1,
    lsb: 0,
    scalar: true,
    signed: false,
  } as const;
  const signal = addSignal(draft, { scope, name: name.name, at: name, shape, port: null, isPrivate: false });
  const contents = createMemoryContents({ width, sizes: dimensions.map(({ size }) => size) });
  return { signal, contents, number: draft.arrays.length };
}

interface Layout {
  readonly dimensions: readonly ArrayDimension[];
  readonly count: number;
  readonly port: LocalSignal['port'];
}

/** `m[2][0]`: named by the indices as declared. */
function addWords(
  draft: ModuleDraft,
  scope: Scope,
  { name }: Declarator,
  shape: SignalShape,
  { dimensions, count, port }: Layout,
): LocalSignal[] {
  return Array.from({ length: count }, (_, position) => {
    let rest = position;
    let indices = '';
    for (const { first, size } of [...dimensions].reverse()) {
      indices = `[${first + (rest % size)}]${indices}`;
      rest = Math.floor(rest / size);
    }
    return addSignal(draft, { scope, name: `${name.name}${indices}`, at: name, shape, port, isPrivate: false });
  });
}
