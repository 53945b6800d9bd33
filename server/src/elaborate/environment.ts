// What a process has assigned so far, per signal as disjoint slices: in `now` what blocking assignments have done, in
// `next` what nonblocking ones will do. A branch writes into a layer of its own, which knows only what it changed;
// `merge.ts` joins branches. A slice remembers under which condition it has been assigned at all.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { sliceOf } from '../netlist/node-makers';
import type { At } from '../syntax/tables';
import type { Place } from '../text/place';

export type Plane = 'now' | 'next';

/** Bits [low + width - 1 : low] of a signal. */
export interface Slice {
  readonly low: number;
  readonly width: number;
  readonly value: NodeId;
  /** 1-bit node: 1 where this path through the process has assigned the slice; else `value` holds. */
  readonly assigned: NodeId;
  /** What left the slice alone on some path; null while every path has assigned it. */
  readonly holdAt: At | null;
}

export interface Layer {
  readonly parent: Layer | null;
  readonly now: Map<number, Slice[]>;
  readonly next: Map<number, Slice[]>;
}

/** A stretch of a signal; `slice` null where nothing has been assigned. */
export interface Stretch {
  readonly low: number;
  readonly width: number;
  readonly slice: Slice | null;
}

export function createLayer(parent: Layer | null): Layer {
  return { parent, now: new Map(), next: new Map() };
}

export function writeSlice(layer: Layer, plane: Plane, signal: number, slice: Slice, nodes: NodeBuilder): void {
  const slices = layer[plane].get(signal);
  if (slices === undefined) {
    layer[plane].set(signal, [slice]);
    return;
  }
  const from = firstEndingAbove(slices, slice.low);
  const end = slice.low + slice.width;
  let until = from;
  const kept: Slice[] = [];
  for (; until < slices.length && slices[until].low < end; until++) {
    const old = slices[until];
    if (old.low < slice.low) kept.push(cut(old, old.low, slice.low - old.low, nodes));
  }
  kept.push(slice);
  if (until > from) {
    const last = slices[until - 1];
    const lastEnd = last.low + last.width;
    if (lastEnd > end) kept.push(cut(last, end, lastEnd - end, nodes));
  }
  slices.splice(from, until - from, ...kept);
}

/** What stands in bits [low + width - 1 : low], lowest first, without gaps. */
export function stretchesOf(
  layer: Layer,
  plane: Plane,
  signal: number,
  { low, width }: { readonly low: number; readonly width: number },
  nodes: NodeBuilder,
): Stretch[] {
  const end = low + width;
  const found: Stretch[] = [];
  let at: Layer | null = layer;
  while (at !== null && !at[plane].has(signal)) at = at.parent;
  if (at === null) return [{ low, width, slice: null }];
  const slices = at[plane].get(signal) ?? [];
  let done = low;
  const below = (until: number) => {
    if (done >= until) return;
    const gap = { low: done, width: until - done };
    if (at?.parent) found.push(...stretchesOf(at.parent, plane, signal, gap, nodes));
    else found.push({ ...gap, slice: null });
  };
  for (let index = firstEndingAbove(slices, low); index < slices.length && slices[index].low < end; index++) {
    const slice = slices[index];
    below(Math.min(slice.low, end));
    const from = Math.max(slice.low, low);
    const until = Math.min(slice.low + slice.width, end);
    found.push({ low: from, width: until - from, slice: cut(slice, from, until - from, nodes) });
    done = until;
  }
  below(end);
  return found;
}

/** Whether slices, as a layer keeps them, have a bit. */
export function hasBit(slices: readonly Slice[] | undefined, bit: number): boolean {
  const slice = slices?.[firstEndingAbove(slices, bit)];
  return slice !== undefined && slice.low <= bit;
}

/** Index of the first slice that reaches above a bit. */
function firstEndingAbove(slices: readonly Slice[], bit: number): number {
  let from = 0;
  let until = slices.length;
  while (from < until) {
    const middle = (from + until) >>> 1;
    if (slices[middle].low + slices[middle].width > bit) until = middle;
    else from = middle + 1;
  }
  return from;
}

function cut(slice: Slice, low: number, width: number, nodes: NodeBuilder): Slice {
  if (low === slice.low && width === slice.width) return slice;
  const place = nodes.places[nodes.nodes.place[slice.value]] as Place;
  return { ...slice, low, width, value: sliceOf(nodes, slice.value, low - slice.low, width, place) };
}
