// What a control loads, where that is a constant.

import type { NodeId } from '../netlist/netlist';
import { constantLevel, type Context, sourceOf } from './context';

/** Binary digits of a node, most significant first; null where a bit of it is no constant. */
export function constantDigits(context: Context, node: NodeId): string | null {
  let digits = '';
  for (let bit = context.nodes.width[node] - 1; bit >= 0; bit--) {
    const level = constantLevel(context, sourceOf(context, { node, bit }));
    if (level === null) return null;
    digits += level;
  }
  return digits;
}
