// Arrays of nets and variables (IEEE 1364-2005 4.9). Either every word becomes a signal with its index in its name, clocked,
// started and predicted like any other, or the array is one signal that holds a content. What is larger than both allow is
// known by name and size; what is read from it is unknown, and that is said.

import type { Declarator } from '../syntax/tables';
import { contextIn } from './constants';
import { declaredRange } from './declared-shape';
import { contentBits, createMemoryContents } from '../netlist/memory-contents';
import type { LocalSignal, SignalShape } from './local-signal';
import { addSignal, type ModuleDraft } from './module-draft';
import type { ArrayDimension, ArrayEntity, ArrayMemory, Scope } from './scope';

/** Bits of one array that are followed word by word: words tell more, a content costs nothing for what nobody touches. */
const mostBits = 8_192;

export function declareArray(draft: ModuleDraft, scope: Scope, declarator: Declarator, shape: SignalShape): void {
  const { name: at, dimensions: ranges, value } = declarator;
  const { name } = at;
  const dimensions = dimensionsOf(draft, scope, declarator);
  if (dimensions === null || value !== null) {
    const complaint = value === null ? -1 : refuseArray(draft, declarator, 'start value of a whole array');
    scope.names.set(name, { kind: 'hole', at, complaint });
    return;
  }
  const count = dimensions.reduce((product, { size }) => product * size, 1);
  const isContent = isKeptAsContent(scope, shape, count);
  const complaint = complaintOf(draft, declarator, { words: count, width: shape.width, isContent });
  const isFollowed = complaint === null;
  const words =
    isFollowed && !isContent ? addWords(draft, scope, declarator, shape, { dimensions, ranges, count }) : null;
  const memory = isFollowed && isContent ? addMemory(draft, scope, declarator, shape, dimensions) : null;
  const array: ArrayEntity = { kind: 'array', at, name, dimensions, shape, words, memory, complaint: complaint ?? -1 };
  scope.names.set(name, array);
  draft.arrays.push({ array, path: `${scope.prefix}${name}` });
}

export function refuseArray({ log, source }: ModuleDraft, { at }: Declarator, what: string): number {
  return log.add('construct', { what }, source.place(at));
}

/** Null where a range is no constant: that has been said. */
function dimensionsOf(draft: ModuleDraft, scope: Scope, { dimensions }: Declarator): ArrayDimension[] | null {
  const found: ArrayDimension[] = [];
  for (const table of dimensions) {
    const range = declaredRange(contextIn(draft, scope), table, 'memoryWords');
    if (range === null) return null;
    found.push({ first: Math.min(range.msb, range.lsb), size: range.width });
  }
  return found;
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
  readonly ranges: Declarator['dimensions'];
  readonly count: number;
}

/** `m[2][0]`: named by the indices as declared. */
function addWords(
  draft: ModuleDraft,
  scope: Scope,
  { name }: Declarator,
  shape: SignalShape,
  { dimensions, count }: Layout,
): LocalSignal[] {
  return Array.from({ length: count }, (_, position) => {
    let rest = position;
    let indices = '';
    for (const { first, size } of [...dimensions].reverse()) {
      indices = `[${first + (rest % size)}]${indices}`;
      rest = Math.floor(rest / size);
    }
    return addSignal(draft, { scope, name: `${name.name}${indices}`, at: name, shape, port: null, isPrivate: false });
  });
}
