// What else a register listens to beside its clock: asynchronous controls as they stand in the edge list, and the one
// condition under which it takes a new value, where there is exactly one.

import type { Latch, Register } from '../netlist/netlist';
import { type Context, sameBit, sourceOf } from './context';
import { asClear, asEnable, type BitChoice, choiceAt, dataSource } from './data-choices';
import { controlName } from './launches';
import { constantDigits } from './loaded-value';
import type { ControlUse, RegisterClocking } from './network';

export function asynchronousUses(context: Context, register: Register | Latch): ControlUse[] {
  return register.asynchronous.map(({ control, active, value, place }) => {
    const bit = sourceOf(context, control);
    return { bit, name: controlName(context, bit), active, value, digits: constantDigits(context, value), place };
  });
}

/** The same for every bit, with a name to point at; clears before and after it are passed by. */
export function soleEnable(context: Context, register: Register): RegisterClocking['enable'] {
  const first = enableOfBit(context, register, 0);
  if (first === null) return null;
  for (let bit = 1; bit < register.width; bit++) {
    const next = enableOfBit(context, register, bit);
    if (next?.active !== first.active || !sameBit(next.condition, first.condition)) return null;
  }
  const name = context.names.canonicalNameOf(first.condition);
  return name === null ? null : { bit: first.condition, name, active: first.active };
}

/** Null for none, and for more than one. */
function enableOfBit(context: Context, register: Register, bit: number): BitChoice | null {
  const own = { node: register.node, bit };
  let found: BitChoice | null = null;
  let source = dataSource(context, register, bit);
  for (let steps = 0; steps < context.nodes.count; steps++) {
    const choice = choiceAt(context, source);
    const clear = choice === null ? null : asClear(context, choice);
    const enable = choice === null || clear !== null ? null : asEnable(choice, own);
    if (enable !== null && found !== null) return null;
    found ??= enable;
    const next = clear?.otherwise ?? enable?.taken;
    if (next === undefined) return found;
    source = next;
  }
  return found;
}
