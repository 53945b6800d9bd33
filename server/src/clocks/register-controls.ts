// What else a register listens to beside its clock: asynchronous controls as they stand in the edge list, and the one
// condition under which it takes a new value, where there is exactly one.

import type { NodeId, Register } from '../netlist/netlist';
import { type Context, sourceOf } from './context';
import { exchanged, firstChoice, isConstant, isHold } from './data-choices';
import { controlName } from './launches';
import type { ControlUse, RegisterClocking } from './network';

export function asynchronousUses(context: Context, register: Register): ControlUse[] {
  return register.asynchronous.map(({ control, active, value, place }) => {
    const bit = sourceOf(context, control);
    return { bit, name: controlName(context, bit), active, value, place };
  });
}

/** `data`: what the register takes while its synchronous reset is inactive. Clears before the enable are passed by. */
export function soleEnable(context: Context, register: Register, data: NodeId): RegisterClocking['enable'] {
  let found: RegisterClocking['enable'] = null;
  let node = data;
  for (let depth = 0; depth < context.nodes.count; depth++) {
    const choice = firstChoice(context, node);
    if (choice === null) return found;
    const { taken, otherwise } = choice;
    if (isConstant(context, taken)) node = otherwise;
    else if (isConstant(context, otherwise)) node = taken;
    else {
      const enabling = isHold(context, register, otherwise) ? choice : exchanged(choice);
      if (!isHold(context, register, enabling.otherwise)) return found;
      const name = context.names.canonicalNameOf(enabling.condition);
      // A second condition below the first, or one without a name, is no single bit to point at.
      if (found !== null || name === null) return null;
      found = { bit: enabling.condition, name, active: enabling.active };
      node = enabling.taken;
    }
  }
  return found;
}
