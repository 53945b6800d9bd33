// Writes to an array that is kept as one content: each gives the content with a word, a part of one or a range of words
// replaced, in the order of the text. Neighboring words that get one value are one range, so that a loop that clears a
// memory is one operator.

import { allX, fromNumber, toNumber } from '../netlist/four-state';
import { contentBits } from '../netlist/memory-contents';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import { certain } from './conditions';
import { holdNode } from './draft-nodes';
import { type Plane, stretchesOf, writeSlice } from './environment';
import { indicesOf } from './lower-word';
import { notePort } from './module-draft';
import { createNodeReader } from './process-reader';
import type { ArrayEntity, ArrayMemory } from './scope';
import type { TargetPart } from './targets';
import { type Position, type Walk, writeHole } from './walk';

export type WordsPart = Extract<TargetPart<NodeId>, { kind: 'words' }>;

interface Range {
  readonly from: number;
  readonly until: number;
}

export interface ContentWrite {
  readonly memory: ArrayMemory;
  readonly blocking: boolean;
  readonly at: At;
}

/** `value`: of the part's width. */
export function writeContent(
  walk: Walk,
  position: Position,
  write: ContentWrite,
  part: WordsPart,
  value: NodeId,
): void {
  const { nodes, source } = walk.draft;
  const { algebra } = createNodeReader(walk.draft, walk.process, position.layer);
  const indices = indicesOf(algebra, part.array, part.offsets, write.at);
  if (indices === null) return;
  const fixed = part.offsets.flatMap((offset) => (offset.kind === 'fixed' ? [offset.offset] : []));
  if (fixed.length < part.offsets.length) notePort(walk.process, { array: part.array, kind: 'write', at: write.at });
  const isWhole = part.index === null && part.width === part.array.shape.width;
  if (isWhole && fixed.length === indices.length) {
    fillContent(
      walk,
      position,
      write,
      part.array,
      fixed.map((from) => ({ from, until: from + 1 })),
      value,
    );
    return;
  }
  const place = source.place(write.at);
  const low = part.index ?? nodes.constant(fromNumber(32, part.low), place);
  changeContent(walk, position, { ...write, isWhole: false }, (old) =>
    nodes.add(Op.memoryWrite, contentBits, [old, value, low, ...indices], write.memory.number, place),
  );
}

/** One value into a range of words, per dimension. */
export function fillContent(
  walk: Walk,
  position: Position,
  write: ContentWrite,
  { dimensions }: ArrayEntity,
  ranges: readonly Range[],
  value: NodeId,
): void {
  const { nodes, source } = walk.draft;
  const place = source.place(write.at);
  const coversAll = (all: readonly Range[]) =>
    all.every(({ from, until }, level) => from <= 0 && until >= dimensions[level].size);
  changeContent(walk, position, { ...write, isWhole: coversAll(ranges) }, (old) => {
    const joined = joinedRanges(nodes, old, ranges, value);
    const base = coversAll(joined.ranges) ? nodes.constant(allX(contentBits), place) : joined.base;
    const bounds = joined.ranges.flatMap(({ from, until }) => [from, until]);
    const operands = [base, value, ...bounds.map((bound) => nodes.constant(fromNumber(32, bound), place))];
    return nodes.add(Op.memoryFill, contentBits, operands, write.memory.number, place);
  });
}

/** With the range of the write before where that gave its neighbors the same value. */
function joinedRanges(
  nodes: NodeBuilder,
  old: NodeId,
  ranges: readonly Range[],
  value: NodeId,
): { readonly base: NodeId; readonly ranges: readonly Range[] } {
  const apart = { base: old, ranges };
  if (nodes.nodes.op[old] !== Op.memoryFill || operand(nodes.nodes, old, 1) !== value) return apart;
  const before = ranges.map((_, level) => rangeAt(nodes, old, level));
  const differing = ranges.flatMap(({ from, until }, level) =>
    before[level].from === from && before[level].until === until ? [] : [level],
  );
  const [level] = differing;
  if (differing.length !== 1) return apart;
  const touches = before[level].until === ranges[level].from || ranges[level].until === before[level].from;
  if (!touches) return apart;
  const from = Math.min(before[level].from, ranges[level].from);
  const until = Math.max(before[level].until, ranges[level].until);
  const joined = ranges.map((range, other) => (other === level ? { from, until } : range));
  return joinedRanges(nodes, operand(nodes.nodes, old, 0), joined, value);
}

function rangeAt(nodes: NodeBuilder, fill: NodeId, level: number): Range {
  const bound = (index: number) => toNumber(nodes.constantOf(operand(nodes.nodes, fill, index)) ?? allX(32)) ?? 0;
  return { from: bound(2 + 2 * level), until: bound(3 + 2 * level) };
}

function changeContent(
  walk: Walk,
  position: Position,
  { memory: { signal }, blocking, at, isWhole }: ContentWrite & { readonly isWhole: boolean },
  change: (old: NodeId) => NodeId,
): void {
  const { draft, process } = walk;
  const { nodes, source } = draft;
  const place = source.place(at);
  const plane: Plane = blocking ? 'now' : 'next';
  const whole = { low: 0, width: contentBits };
  if (!blocking && position.layer.now.has(signal.index)) {
    const complaint = draft.log.add('mixed-partial-write', { name: signal.name }, place);
    writeHole(walk, position, signal.index, { at }, complaint);
    return;
  }
  const [{ slice }] = stretchesOf(position.layer, plane, signal.index, whole, nodes);
  if (slice === null && walk.style === 'level' && !isWhole) {
    writeHole(
      walk,
      position,
      signal.index,
      { at },
      draft.log.add('memory-without-clock', { name: signal.name }, place),
    );
    return;
  }
  const value = change(slice?.value ?? holdNode(draft, process.index, signal, whole, at));
  const assigned = certain(nodes, 1, place);
  writeSlice(position.layer, plane, signal.index, { ...whole, value, assigned, holdAt: null }, nodes);
}
