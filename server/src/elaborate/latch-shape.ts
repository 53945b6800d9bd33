// The gate and data of a latch from the condition under which a level process assigns it. Leading branches that load a
// constant on a single signal's level are asynchronous controls, as in a register (definition 8).

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { concatOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import type { BitRange } from './draft-nodes';
import type { Slice } from './environment';
import type { ControlDraft, LatchDraft } from './module-draft';
import { firstAssignment, type Walk } from './walk';
import { createHoldRemover } from './without-holds';

/** `slices`: neighbors of one signal that are assigned under one condition. */
export function latchOf(
  walk: Walk,
  slices: readonly (Slice & { readonly signal: number })[],
  hasComplete: boolean,
): LatchDraft {
  const { draft, process } = walk;
  const { nodes, source } = draft;
  const [{ signal, low, holdAt }] = slices;
  const width = slices.reduce((sum, slice) => sum + slice.width, 0);
  const at = firstAssignment(walk, signal, { low, width });
  const join = (parts: readonly NodeId[]) =>
    parts.length === 1 ? parts[0] : concatOf(nodes, [...parts].reverse(), source.place(at));
  const asynchronous: ControlDraft[] = [];
  let story: Story = { assigned: slices[0].assigned, values: slices.map(({ value }) => value) };
  for (let next = leadingControl(nodes, story); next !== null; next = leadingControl(nodes, story)) {
    asynchronous.push({ ...polarity(nodes, next.control), value: join(next.values), at });
    story = next.rest;
  }
  const { control: gate, active } = polarity(nodes, story.assigned);
  const branches = writingPlaces(walk, signal, { low, width }) - asynchronous.length;
  return {
    signal,
    low,
    width,
    gate,
    active,
    asynchronous,
    data: join(story.values.map(createHoldRemover(nodes))),
    process: process.index,
    at,
    holdAt: holdAt ?? at,
    flavor: process.flavor === 'always_comb' || process.flavor === 'always_latch' ? process.flavor : 'always',
    othersComplete: hasComplete || branches > 1,
  };
}

interface Story {
  readonly assigned: NodeId;
  /** Lowest slice first. */
  readonly values: readonly NodeId[];
}

/** `c or rest` with the value `c ? constant : …` everywhere, c a single signal's level. */
function leadingControl(nodes: NodeBuilder, { assigned, values }: Story) {
  const { op } = nodes.nodes;
  if (op[assigned] !== Op.or) return null;
  const [control, rest] = operandsOf(nodes, assigned);
  if (!isPlainLevel(nodes, control)) return null;
  const arms = values.map((value) => armsOf(nodes, value, control));
  if (arms.some((arm) => arm === null || nodes.constantOf(arm.loaded) === null)) return null;
  return {
    control,
    values: arms.map((arm) => arm?.loaded ?? control),
    rest: { assigned: rest, values: arms.map((arm) => arm?.otherwise ?? control) },
  };
}

function armsOf(nodes: NodeBuilder, value: NodeId, control: NodeId) {
  if (nodes.nodes.op[value] !== Op.mux) return null;
  const [select, whenOne, whenZero] = operandsOf(nodes, value);
  if (select === control) return { loaded: whenOne, otherwise: whenZero };
  const { op } = nodes.nodes;
  if (op[control] === Op.not && operandsOf(nodes, control)[0] === select)
    return { loaded: whenZero, otherwise: whenOne };
  return null;
}

/** A name or its inverse: something that can be called a control. */
function isPlainLevel(nodes: NodeBuilder, node: NodeId): boolean {
  const { op } = nodes.nodes;
  let at = node;
  while (op[at] === Op.not || op[at] === Op.slice) [at] = operandsOf(nodes, at);
  return op[at] === Op.net;
}

function polarity(nodes: NodeBuilder, node: NodeId): { control: NodeId; active: 'high' | 'low' } {
  if (nodes.nodes.op[node] !== Op.not) return { control: node, active: 'high' };
  return { control: operandsOf(nodes, node)[0], active: 'low' };
}

function operandsOf({ nodes }: NodeBuilder, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}

/** How many places of the text assign the bits. */
function writingPlaces({ process }: Walk, signal: number, { low, width }: BitRange): number {
  const places = new Set<At>();
  for (const assignment of process.assignments) {
    const overlaps = assignment.low < low + width && low < assignment.low + assignment.width;
    if (assignment.signal === signal && overlaps) places.add(assignment.at);
  }
  return places.size;
}
