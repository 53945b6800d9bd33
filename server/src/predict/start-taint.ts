// Which bits can hang on a given set of unknown state bits: carried through the logic operator by operator, over values
// that are known only where they never change. A known bit hangs on nothing; what the other operands could block is
// taken as not blocked. Over whole nodes where an operator's inside is unknown.

import { evaluate } from '../netlist/evaluate';
import { type Bits, fromLimbs, hasUnknown, ones, zero, zeroPlane } from '../netlist/four-state';
import { Op } from '../netlist/operators';
import { sameBits, type SettledMachine } from './settled-machine';
import type { SettledPlan } from './settled-plan';

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

/**
 * The same after the taint of these state positions has shrunk: only what hears them is worked out anew. Gives the state
 * positions that hear a change.
 */
export function shrinkTaint(machine: SettledMachine, taint: Bits[], changed: readonly number[]): ReadonlySet<number> {
  const { plan } = machine;
  const waiting = createWaiting(plan.nodes.length);
  const hearing = new Set<number>();
  const tell = (position: number): void => {
    for (let index = plan.readerFirst[position]; index < plan.readerFirst[position + 1]; index++) {
      const reader = plan.readers[index];
      if (plan.op[reader] <= Op.hole) hearing.add(reader);
      else waiting.add(plan.knotOf[reader] < 0 ? reader : plan.knots[plan.knotOf[reader]].from);
    }
    for (let index = plan.watchFirst[position]; index < plan.watchFirst[position + 1]; index++) {
      hearing.add(plan.registers[plan.watches[index] >>> 2].position);
    }
  };
  for (const position of changed) tell(position);
  for (let position = waiting.take(); position >= 0; position = waiting.take()) {
    const knot =
      plan.knotOf[position] < 0 ? { from: position, until: position + 1 } : plan.knots[plan.knotOf[position]];
    const before = taint.slice(knot.from, knot.until);
    if (plan.knotOf[position] < 0) taint[position] = taintOf(machine, taint, position);
    else spreadAnew(machine, taint, knot);
    for (let at = knot.from; at < knot.until; at++) if (!sameBits(before[at - knot.from], taint[at])) tell(at);
  }
  return hearing;
}

/** Numbers below a bound, taken out lowest first; what is added is never lower than what was taken last. */
function createWaiting(bound: number) {
  const words = new Uint32Array((bound + 31) >>> 5);
  let lowest = words.length;
  let highest = -1;
  return {
    add(number: number): void {
      words[number >>> 5] |= 1 << (number & 31);
      lowest = Math.min(lowest, number >>> 5);
      highest = Math.max(highest, number >>> 5);
    },
    /** -1 where there is none. */
    take(): number {
      while (lowest <= highest && words[lowest] === 0) lowest += 1;
      if (lowest > highest) return -1;
      const bit = words[lowest] & -words[lowest];
      words[lowest] &= ~bit;
      return lowest * 32 + 31 - Math.clz32(bit);
    },
  };
}

/** A knot's taint is the least that its operands carry, so it is worked out from nothing. */
function spreadAnew(machine: SettledMachine, taint: Bits[], knot: SettledPlan['knots'][number]): void {
  for (let position = knot.from; position < knot.until; position++) {
    if (machine.plan.op[position] > Op.hole) taint[position] = zero(machine.plan.width[position]);
  }
  spreadInKnot(machine, taint, knot);
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
  // A content has no unknown bits, however little is known of the words.
  const isContent = plan.contents[position] !== undefined;
  if (!isContent && !hasUnknown(value)) return zero(value.width);
  const operands = Array.from(plan.pool.subarray(plan.first[position], plan.first[position + 1]));
  const carried = carriedBits(machine, taint, position, operands);
  const open = isContent ? ones(value.width) : unknownBits(value);
  return carried === 'all' ? open : intersection(carried, open);
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
    case Op.memoryWrite:
    case Op.memoryFill:
      // What is written from elsewhere to a place told from elsewhere can end it, word by word.
      return isTainted(first) && operands.slice(1).some(isTainted) ? 'all' : zero(plan.width[position]);
    case Op.memoryPick:
      if (isTainted(first)) return 'all';
      return operands
        .slice(1)
        .map((content) => taint[content])
        .reduce(intersection);
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
