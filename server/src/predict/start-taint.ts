// Which bits can hang on a given set of unknown state bits: carried through the logic operator by operator, over values
// that are known only where they never change. A known bit hangs on nothing; what the other operands could block is
// taken as not blocked. Over whole nodes where an operator's inside is unknown.

import { evaluate } from '../netlist/evaluate';
import { type Bits, fromLimbs, hasUnknown, zero, zeroPlane } from '../netlist/four-state';
import { Op } from '../netlist/operators';
import { sameBits, type SettledMachine } from './settled-machine';

/** Per position: the bits that hang on the state bits, as ones. `state`: which register and latch bits are meant. */
export function spreadTaint(machine: SettledMachine, state: ReadonlyMap<number, Bits>): Bits[] {
  const { plan } = machine;
  const taint: Bits[] = Array.from(plan.width, zero);
  for (const [position, bits] of state) taint[position] = bits;
  for (let position = 0; position < plan.nodes.length; position++) {
    if (plan.op[position] <= Op.hole) continue;
    const knot = plan.knotOf[position];
    if (knot < 0) taint[position] = taintOf(machine, taint, position);
    else if (plan.knots[knot].from === position) spreadInKnot(machine, taint, plan.knots[knot]);
  }
  return taint;
}

function spreadInKnot(
  machine: SettledMachine,
  taint: Bits[],
  { from, until }: { readonly from: number; readonly until: number },
): void {
  for (let moved = true; moved; ) {
    moved = false;
    for (let position = from; position < until; position++) {
      if (machine.plan.op[position] <= Op.hole) continue;
      const before = taint[position];
      taint[position] = union(before, taintOf(machine, taint, position));
      moved = moved || !sameBits(before, taint[position]);
    }
  }
}

function taintOf(machine: SettledMachine, taint: readonly Bits[], position: number): Bits {
  const { plan, values } = machine;
  const value = values.views[position];
  if (!hasUnknown(value)) return zero(value.width);
  const operands = Array.from(plan.pool.subarray(plan.first[position], plan.first[position + 1]));
  const carried = carriedBits(machine, taint, position, operands);
  return carried === 'all' ? unknownBits(value) : intersection(carried, unknownBits(value));
}

/** What operands carry to this position; `all` where every bit of it may hear a tainted one. */
function carriedBits(
  { plan, values }: SettledMachine,
  taint: readonly Bits[],
  position: number,
  operands: readonly number[],
): Bits | 'all' {
  const [first] = operands;
  const isTainted = (operand: number) => !sameBits(taint[operand], zero(taint[operand].width));
  switch (plan.op[position]) {
    case Op.net:
    case Op.delay:
    case Op.concat:
    case Op.slice:
    case Op.zeroExtend:
    case Op.signExtend: {
      const parts = operands.map((operand) => taint[operand]);
      return evaluate(plan.op[position], plan.width[position], parts, plan.aux[position], plan.netlist);
    }
    case Op.buf:
    case Op.not:
    case Op.xor:
    case Op.xnor:
    case Op.resolve:
      return operands.map((operand) => taint[operand]).reduce(union);
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor: {
      const free = operands.map((operand) => without(unknownBits(values.views[operand]), taint[operand])).reduce(union);
      return without(operands.map((operand) => taint[operand]).reduce(union), free);
    }
    case Op.mux: {
      const select = values.views[first];
      if (select.b[0] === 0) return taint[operands[select.a[0] === 1 ? 1 : 2]];
      return isTainted(first) ? 'all' : intersection(taint[operands[1]], taint[operands[2]]);
    }
    case Op.select: {
      if (isTainted(first)) return 'all';
      return operands
        .filter((_, index) => index > 0 && (index % 2 === 0 || index === operands.length - 1))
        .map((arm) => taint[arm])
        .reduce(intersection);
    }
    default:
      return operands.some(isTainted) ? 'all' : zero(plan.width[position]);
  }
}

function unknownBits({ width, b }: Bits): Bits {
  return fromLimbs(width, b.slice(), zeroPlane(b.length));
}

export function union(left: Bits, right: Bits): Bits {
  return fromLimbs(
    left.width,
    left.a.map((limb, index) => limb | right.a[index]),
    zeroPlane(left.a.length),
  );
}

function without(left: Bits, right: Bits): Bits {
  return fromLimbs(
    left.width,
    left.a.map((limb, index) => limb & ~right.a[index]),
    zeroPlane(left.a.length),
  );
}

export function intersection(left: Bits, right: Bits): Bits {
  return fromLimbs(
    left.width,
    left.a.map((limb, index) => limb & right.a[index]),
    zeroPlane(left.a.length),
  );
}
