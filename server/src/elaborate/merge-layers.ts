// Joins the branches of an `if` or `case` into the layer around them: for every stretch that some branch has assigned,
// one choice between the branches' values, and one between the conditions under which they assigned it.

import type { NodeId } from '../netlist/netlist';
import type { At } from '../syntax/tables';
import { certain, isCertain } from './conditions';
import { holdNode } from './draft-nodes';
import { createLayer, type Layer, type Plane, type Slice, stretchesOf, writeSlice } from './environment';
import { type ModuleDraft, signalAt } from './module-draft';

export interface Branch {
  readonly layer: Layer;
  /** What is to blame where this branch leaves a target alone. */
  readonly at: At;
}

export interface Choice {
  /** One value per branch, all of one width. */
  value(values: readonly NodeId[]): NodeId;
  /** Conditions of width 1. */
  condition(conditions: readonly NodeId[]): NodeId;
}

export interface MergeOptions {
  readonly draft: ModuleDraft;
  readonly process: number;
  readonly into: Layer;
  readonly branches: readonly Branch[];
  readonly choice: Choice;
  readonly at: At;
}

export function mergeBranches(options: MergeOptions): void {
  for (const plane of ['now', 'next'] as const) {
    const signals = new Set(options.branches.flatMap(({ layer }) => [...layer[plane].keys()]));
    for (const signal of [...signals].sort((left, right) => left - right)) mergeSignal(options, plane, signal);
  }
}

function mergeSignal(options: MergeOptions, plane: Plane, signal: number): void {
  const { draft, into, branches } = options;
  for (const range of assignedRanges(branches, plane, signal)) {
    const perBranch = branches.map(({ layer }) => stretchesOf(layer, plane, signal, range, draft.nodes));
    const cuts = [...new Set(perBranch.flatMap((stretches) => stretches.map(({ low }) => low)))].sort((a, b) => a - b);
    cuts.push(range.low + range.width);
    const merged = createLayer(null);
    for (let index = 0; index + 1 < cuts.length; index++) {
      const stretch = { low: cuts[index], width: cuts[index + 1] - cuts[index] };
      writeSlice(merged, plane, signal, mergeStretch(options, plane, signal, stretch), draft.nodes);
    }
    for (const slice of merged[plane].get(signal) ?? []) writeSlice(into, plane, signal, slice, draft.nodes);
  }
}

/** The union of what the branches have assigned, as maximal ranges. */
function assignedRanges(branches: readonly Branch[], plane: Plane, signal: number) {
  const slices = branches.flatMap(({ layer }) => layer[plane].get(signal) ?? []);
  const ranges: { low: number; width: number }[] = [];
  for (const { low, width } of slices.sort((left, right) => left.low - right.low)) {
    const last = ranges.at(-1);
    if (last === undefined || last.low + last.width < low) ranges.push({ low, width });
    else last.width = Math.max(last.width, low + width - last.low);
  }
  return ranges;
}

function mergeStretch(
  { draft, process, branches, choice, at }: MergeOptions,
  plane: Plane,
  signal: number,
  range: { readonly low: number; readonly width: number },
): Slice {
  const place = draft.source.place(at);
  const slices = branches.map(({ layer }) => stretchesOf(layer, plane, signal, range, draft.nodes)[0].slice);
  const hold = () => holdNode(draft, process, signalAt(draft, signal), range, at);
  const value = choice.value(slices.map((slice) => slice?.value ?? hold()));
  const assigned = choice.condition(slices.map((slice) => slice?.assigned ?? certain(draft.nodes, 0, place)));
  const blamed = branches.find((_, index) => slices[index] === null || slices[index]?.holdAt !== null);
  const holder = blamed === undefined ? null : (slices[branches.indexOf(blamed)]?.holdAt ?? blamed.at);
  return { ...range, value, assigned, holdAt: isCertain(draft.nodes, assigned, 1) ? null : holder };
}
