// What a person stated about black boxes (`cells` in foretick.json): that an output is a buffered, inverted or otherwise
// related copy of an input pin. Nothing stated: the output is a root.

import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { type Context, opOf, sourceOf } from './context';
import type { CellFacts } from './network';

interface CellStep {
  readonly action: CellFacts['pins'][string];
  /** The source bit of the stated input pin. */
  readonly operand: Bit;
}

/** Null for what is no black box output, or one about which nothing is stated. */
export function cellStep(context: Context, bit: Bit): CellStep | null {
  if (opOf(context, bit) !== Op.blackBox) return null;
  const { netlist, nodes, options } = context;
  const box = netlist.blackBoxes[netlist.blackBoxOutputs[nodes.aux[bit.node]].box];
  const stated = Object.hasOwn(options.cells, box.module) ? options.cells[box.module].pins : {};
  const pin = box.pins.find(({ name, output }) => output < 0 && Object.hasOwn(stated, name));
  if (pin === undefined) return null;
  const index = bit.bit < nodes.width[pin.node] ? bit.bit : 0;
  return { action: stated[pin.name], operand: sourceOf(context, { node: pin.node, bit: index }) };
}
