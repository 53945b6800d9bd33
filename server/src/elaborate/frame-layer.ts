// The variables of one call as a layer of their own over what stands assigned around the call: x at first, arguments as
// given. Nothing in them outlives the call, whatever a static function or task would keep (IEEE 1364-2005 10.2.1).

import { allX } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import { concatOf } from '../netlist/node-makers';
import type { At } from '../syntax/tables';
import { certain, isCertain } from './conditions';
import { createLayer, type Layer, stretchesOf, writeSlice } from './environment';
import type { LocalSignal } from './local-signal';
import type { ModuleDraft } from './module-draft';
import type { Frame } from './scope';
import { isAlwaysTrue } from './tautology';

/** `args`: one per port, at its port's width; null where nothing is handed in. */
export function openFrame(
  { nodes, source }: ModuleDraft,
  around: Layer | null,
  frame: Frame,
  args: readonly (NodeId | null)[],
  at: At,
): Layer {
  const layer = createLayer(around);
  const place = source.place(at);
  const write = ({ index, shape }: LocalSignal, value: NodeId, isAssigned: 0 | 1) => {
    const assigned = certain(nodes, isAssigned, place);
    writeSlice(layer, 'now', index, { low: 0, width: shape.width, value, assigned, holdAt: null }, nodes);
  };
  for (const variable of frame.variables) write(variable, nodes.constant(allX(variable.shape.width), place), 0);
  for (const [index, { signal }] of frame.ports.entries()) {
    const argument = args[index];
    if (argument !== null) write(signal, argument, 1);
  }
  return layer;
}

/** What one of the variables has come to, and whether every path has given it that. */
export function variableOf(
  { nodes, source }: ModuleDraft,
  layer: Layer,
  { index, shape }: LocalSignal,
  at: At,
): { readonly value: NodeId; readonly isAssigned: boolean } {
  const slices = stretchesOf(layer, 'now', index, { low: 0, width: shape.width }, nodes).map(({ slice }) => slice);
  const known = slices.filter((slice) => slice !== null);
  const isAssigned = known.every(({ assigned }) => isCertain(nodes, assigned, 1) || isAlwaysTrue(nodes, assigned));
  const values = known.map(({ value }) => value).reverse();
  return { value: values.length === 1 ? values[0] : concatOf(nodes, values, source.place(at)), isAssigned };
}
