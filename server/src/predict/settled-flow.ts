// Carries changes through the logic of a settled machine until it is at rest: only what hears a change is evaluated,
// operands first. Knots (nodes that feed each other) are settled by Eichelberger's ternary method: first everything
// that could move is let move to x, then what the inputs decide is decided. The result hangs on no order of evaluation;
// x is left where the outcome depends on delays. E. B. Eichelberger, IBM J. R&D 9 (1965) 90-99 (from memory).

import type { Bits } from '../netlist/four-state';
import { merge } from '../netlist/four-state-parts';
import { Op } from '../netlist/operators';
import { evaluateLatch, evaluatePosition, store, storeAllX } from './settled-logic';
import { copyOf, markReaders, sameBits, type SettledMachine } from './settled-machine';

/** Evaluates what is marked and what that changes. */
export function settle(machine: SettledMachine): void {
  const { plan, values, dirty } = machine;
  for (let word = 0; word < dirty.length; word++) {
    while (dirty[word] !== 0) {
      const lowest = dirty[word] & -dirty[word];
      const position = (word << 5) + 31 - Math.clz32(lowest);
      dirty[word] &= ~lowest;
      machine.work += 1;
      if (plan.knotOf[position] >= 0) settleKnot(machine, plan.knotOf[position], 'moving');
      else if (evaluatePosition(plan, values, position)) markReaders(machine, position);
    }
  }
}

/** Evaluates everything, as at time 0. What stands in a knot and is no latch starts unknown. */
export function settleAll(machine: SettledMachine): void {
  const { plan, values, dirty } = machine;
  for (let position = 0; position < plan.nodes.length; position++) {
    const knot = plan.knotOf[position];
    if (knot < 0) evaluatePosition(plan, values, position);
    else if (plan.knots[knot].from === position) settleKnot(machine, knot, 'fresh');
  }
  machine.work += plan.nodes.length;
  for (let position = 0; position < plan.nodes.length; position++) markReaders(machine, position);
  dirty.fill(0);
}

function settleKnot(machine: SettledMachine, index: number, from: 'moving' | 'fresh'): void {
  const { plan, values, dirty } = machine;
  const { from: first, until } = plan.knots[index];
  const before: Bits[] = [];
  for (let position = first; position < until; position++) {
    before.push(copyOf(values.views[position]));
    if (from === 'fresh' && plan.op[position] !== Op.latch) storeAllX(plan, values, position);
  }
  if (from === 'moving') repeat(machine, first, until, before, 'loosen');
  repeat(machine, first, until, before, 'decide');
  for (let position = first; position < until; position++) {
    if (!sameBits(values.views[position], before[position - first])) markReaders(machine, position);
  }
  for (let position = first; position < until; position++) dirty[position >>> 5] &= ~(1 << (position & 31));
}

/** Each round can only move bits one way, so there are at most as many rounds as the knot has bits. */
function repeat(
  machine: SettledMachine,
  first: number,
  until: number,
  held: readonly Bits[],
  phase: 'loosen' | 'decide',
): void {
  const { plan, values } = machine;
  let rounds = 2;
  for (let position = first; position < until; position++) rounds += plan.width[position];
  for (let moved = true; moved && rounds > 0; rounds--) {
    moved = false;
    for (let position = first; position < until; position++) {
      machine.work += 1;
      const old = copyOf(values.views[position]);
      if (plan.op[position] === Op.latch) evaluateLatch(plan, values, position, held[position - first]);
      else evaluatePosition(plan, values, position);
      if (phase === 'loosen') store(values, position, merge(old, values.views[position]));
      moved = !sameBits(old, values.views[position]) || moved;
    }
  }
}
