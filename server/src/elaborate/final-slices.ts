// What a process leaves in its targets once all its statements have been followed: nonblocking assignments take effect
// over what blocking ones have left (IEEE 1364-2005 11.4).

import { operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { either, isCertain } from './conditions';
import { type BitRange, holdNode } from './draft-nodes';
import { hasBit, type Layer, type Slice, type Stretch, stretchesOf } from './environment';
import { type ModuleDraft, signalAt } from './module-draft';

/** The ranges that one layer (not the layers around it) has assigned, maximal, lowest first. */
export function assignedIn(layer: Layer, signal: number): BitRange[] {
  const slices = [...(layer.now.get(signal) ?? []), ...(layer.next.get(signal) ?? [])];
  return joined(slices);
}

/** Whether one layer (not the layers around it) has assigned a bit. */
export function assignsBit(layer: Layer, signal: number, bit: number): boolean {
  return hasBit(layer.now.get(signal), bit) || hasBit(layer.next.get(signal), bit);
}

/** Signals that one layer has assigned, in order of declaration. */
export function signalsIn(layers: readonly Layer[]): number[] {
  const signals = new Set(layers.flatMap(({ now, next }) => [...now.keys(), ...next.keys()]));
  return [...signals].sort((left, right) => left - right);
}

/** Touching and overlapping ranges as one. */
export function joined(ranges: readonly BitRange[]): BitRange[] {
  const result: { low: number; width: number }[] = [];
  for (const { low, width } of [...ranges].sort((left, right) => left.low - right.low)) {
    const last = result.at(-1);
    if (last === undefined || last.low + last.width < low) result.push({ low, width });
    else last.width = Math.max(last.width, low + width - last.low);
  }
  return result;
}

/** Both planes as one, lowest first, without gaps. */
export function finalStretches(draft: ModuleDraft, layer: Layer, signal: number, range: BitRange): Stretch[] {
  const { nodes } = draft;
  return stretchesOf(layer, 'next', signal, range, nodes).flatMap((stretch) => {
    const { slice: next } = stretch;
    if (next !== null && isCertain(nodes, next.assigned, 1)) return [stretch];
    const before = stretchesOf(layer, 'now', signal, stretch, nodes);
    if (next === null) return before;
    return before.map((now) => ({ ...now, slice: over(draft, layer, signal, now) }));
  });
}

/** A nonblocking assignment made on some paths only, over what stands there without it. */
function over(draft: ModuleDraft, layer: Layer, signal: number, now: Stretch): Slice | null {
  const { nodes } = draft;
  const [{ slice: next }] = stretchesOf(layer, 'next', signal, now, nodes);
  if (next === null || now.slice === null) return next;
  const place = nodes.places[nodes.nodes.place[next.value]];
  const value = nodes.add(Op.mux, now.width, [next.assigned, whereAssigned(draft, next), now.slice.value], 0, place);
  const assigned = either(nodes, next.assigned, now.slice.assigned, place);
  return { low: now.low, width: now.width, value, assigned, holdAt: now.slice.holdAt };
}

/** What a nonblocking assignment gives where it is made: without the hold that stands for the other paths. */
function whereAssigned({ nodes }: ModuleDraft, { value, assigned }: Slice): Slice['value'] {
  const isChosen = nodes.nodes.op[value] === Op.mux && operand(nodes.nodes, value, 0) === assigned;
  return isChosen ? operand(nodes.nodes, value, 1) : value;
}

/** All boundaries inside a range where some layer changes from one stretch to the next, both ends included. */
export function cutsOf(draft: ModuleDraft, layers: readonly Layer[], signal: number, range: BitRange): number[] {
  const lows = layers.flatMap((layer) => finalStretches(draft, layer, signal, range).map(({ low }) => low));
  return [...new Set([...lows, range.low, range.low + range.width])].sort((left, right) => left - right);
}

/** The value a stretch has, holding where nothing is assigned. */
export function stretchValue(draft: ModuleDraft, process: number, signal: number, { low, width, slice }: Stretch) {
  const target = signalAt(draft, signal);
  return slice?.value ?? holdNode(draft, process, target, { low, width }, target.at);
}
