// The value of one position of a settled plan from its operands, written into limbs that are never copied. Values of at
// most 32 bits take a path of plain numbers, four-state where that costs nothing; all else goes to `evaluate`, which
// is the meaning. A test holds the two paths together.

import { evaluate } from '../netlist/evaluate';
import { type Bits, limbCount, topMask } from '../netlist/four-state';
import { merge } from '../netlist/four-state-parts';
import type { MemoryContents } from '../netlist/memory-contents';
import { Op } from '../netlist/operators';
import type { SettledPlan } from './settled-plan';

export interface SettledValues {
  readonly a: Uint32Array;
  readonly b: Uint32Array;
  /** A window on each position's limbs. */
  readonly views: readonly Bits[];
  /** 1 where the position and all its operands have at most 32 bits. */
  readonly narrow: Uint8Array;
}

export function createValues(plan: SettledPlan): SettledValues {
  const a = new Uint32Array(plan.limbs);
  const b = new Uint32Array(plan.limbs);
  const views = Array.from(plan.width, (width, position) => {
    const from = plan.offset[position];
    const until = from + limbCount(width);
    return { width, a: a.subarray(from, until), b: b.subarray(from, until) };
  });
  return { a, b, views, narrow: Uint8Array.from(plan.nodes, (_, position) => (isNarrow(plan, position) ? 1 : 0)) };
}

function isNarrow(plan: SettledPlan, position: number): boolean {
  if (plan.width[position] > 32 || plan.width[position] === 0) return false;
  for (let index = plan.first[position]; index < plan.first[position + 1]; index++) {
    const width = plan.width[plan.pool[index]];
    if (width > 32 || width === 0) return false;
  }
  if (plan.op[position] === Op.mux) return plan.aux[position] === 0;
  return plan.op[position] !== Op.select || plan.aux[position] < 0;
}

/** Writes the value that the operands give; whether it differs from the one before. Sources keep theirs. */
export function evaluatePosition(plan: SettledPlan, values: SettledValues, position: number): boolean {
  if (plan.op[position] <= Op.hole) return plan.op[position] === Op.latch && evaluateLatch(plan, values, position);
  if (values.narrow[position] === 1) return evaluateNarrow(plan, values, position);
  return evaluateWide(plan, values, position);
}

/** Takes over `bits`, of the position's width; whether that changed anything. */
export function store(values: SettledValues, position: number, bits: Bits): boolean {
  const { a, b } = values.views[position];
  let changed = false;
  for (let limb = 0; limb < a.length; limb++) {
    if (a[limb] === bits.a[limb] && b[limb] === bits.b[limb]) continue;
    a[limb] = bits.a[limb];
    b[limb] = bits.b[limb];
    changed = true;
  }
  return changed;
}

/** The level of a bit of a position: a + 2·b of the planes. */
export function levelAt(plan: SettledPlan, values: SettledValues, position: number, bit: number): number {
  const limb = plan.offset[position] + (bit >>> 5);
  return ((values.a[limb] >>> (bit & 31)) & 1) | (((values.b[limb] >>> (bit & 31)) & 1) << 1);
}

function evaluateWide(plan: SettledPlan, values: SettledValues, position: number): boolean {
  const operands: Bits[] = [];
  for (let index = plan.first[position]; index < plan.first[position + 1]; index++) {
    operands.push(values.views[plan.pool[index]]);
  }
  const bits = evaluate(plan.op[position], plan.width[position], operands, plan.aux[position], plan.netlist);
  return store(values, position, bits);
}

export function storeAllX(plan: SettledPlan, values: SettledValues, position: number): boolean {
  const { a, b } = values.views[position];
  let changed = false;
  for (let limb = 0; limb < a.length; limb++) {
    const full = (limb === a.length - 1 ? topMask(plan.width[position]) : -1) >>> 0;
    if (a[limb] !== full || b[limb] !== full) changed = true;
    a[limb] = full;
    b[limb] = full;
  }
  return changed;
}

/**
 * While open a latch passes its data, closed it keeps what it holds, and where the gate is unknown it may have done
 * either; an asynchronous control above both, first in the list first in priority. `held`: what it kept.
 */
export function evaluateLatch(plan: SettledPlan, values: SettledValues, position: number, held?: Bits): boolean {
  const latch = plan.netlist.latches[plan.aux[position]];
  const first = plan.first[position];
  const open = activity(levelAt(plan, values, plan.pool[first], latch.gate.bit), latch.active);
  const contents = plan.contents[position] ?? null;
  let value = chosen(open, values.views[plan.pool[first + 1]], held ?? values.views[position], contents);
  for (let index = latch.asynchronous.length - 1; index >= 0; index--) {
    const use = latch.asynchronous[index];
    const control = plan.pool[first + 2 + 2 * index];
    const loaded = values.views[plan.pool[first + 3 + 2 * index]];
    value = chosen(activity(levelAt(plan, values, control, use.control.bit), use.active), loaded, value, contents);
  }
  return store(values, position, value);
}

/** What a register, latch or source is where it is one of two values. */
export function mergeStored({ contents }: SettledPlan, position: number, left: Bits, right: Bits): Bits {
  return contents[position]?.merge([left, right]) ?? merge(left, right);
}

/** Whether a level is the active one. */
export function activity(level: number, active: 'high' | 'low'): 'yes' | 'no' | 'perhaps' {
  if (level > 1) return 'perhaps';
  return (level === 1) === (active === 'high') ? 'yes' : 'no';
}

function chosen(answer: 'yes' | 'no' | 'perhaps', whenYes: Bits, whenNo: Bits, contents: MemoryContents | null): Bits {
  if (answer === 'perhaps') return contents === null ? merge(whenYes, whenNo) : contents.merge([whenYes, whenNo]);
  return answer === 'yes' ? whenYes : whenNo;
}

/** One limb each. A `switch` that is a table: gates and wiring in four states, the rest where all operands are known. */
function evaluateNarrow(plan: SettledPlan, values: SettledValues, position: number): boolean {
  const { pool, offset } = plan;
  const { a, b } = values;
  const start = plan.first[position];
  const end = plan.first[position + 1];
  const left = offset[pool[start]];
  switch (plan.op[position]) {
    case Op.net:
    case Op.delay:
    case Op.zeroExtend:
      return put(plan, values, position, a[left], b[left]);
    case Op.slice:
      return put(plan, values, position, a[left] >>> plan.aux[position], b[left] >>> plan.aux[position]);
    case Op.concat: {
      let high = 0;
      let unknown = 0;
      for (let index = start; index < end; index++) {
        const width = plan.width[pool[index]];
        high = width === 32 ? a[offset[pool[index]]] : (high << width) | a[offset[pool[index]]];
        unknown = width === 32 ? b[offset[pool[index]]] : (unknown << width) | b[offset[pool[index]]];
      }
      return put(plan, values, position, high, unknown);
    }
    case Op.not:
      return put(plan, values, position, ~a[left] | b[left], b[left]);
    case Op.and:
    case Op.nand: {
      let ones = -1;
      let zeros = 0;
      for (let index = start; index < end; index++) {
        const limb = offset[pool[index]];
        ones &= a[limb] & ~b[limb];
        zeros |= ~(a[limb] | b[limb]);
      }
      const unknown = ~(ones | zeros);
      return put(plan, values, position, (plan.op[position] === Op.and ? ones : zeros) | unknown, unknown);
    }
    case Op.or:
    case Op.nor: {
      let ones = 0;
      let zeros = -1;
      for (let index = start; index < end; index++) {
        const limb = offset[pool[index]];
        ones |= a[limb] & ~b[limb];
        zeros &= ~(a[limb] | b[limb]);
      }
      const unknown = ~(ones | zeros);
      return put(plan, values, position, (plan.op[position] === Op.or ? ones : zeros) | unknown, unknown);
    }
    case Op.xor:
    case Op.xnor: {
      let parity = plan.op[position] === Op.xor ? 0 : -1;
      let unknown = 0;
      for (let index = start; index < end; index++) {
        parity ^= a[offset[pool[index]]];
        unknown |= b[offset[pool[index]]];
      }
      return put(plan, values, position, parity | unknown, unknown);
    }
    case Op.mux: {
      const one = offset[pool[start + 1]];
      const zero = offset[pool[start + 2]];
      if (b[left] === 0) {
        const taken = a[left] === 1 ? one : zero;
        return put(plan, values, position, a[taken], b[taken]);
      }
      const unknown = (a[one] ^ a[zero]) | b[one] | b[zero];
      return put(plan, values, position, a[one] | unknown, unknown);
    }
    default:
      return evaluateKnown(plan, values, position, start, end);
  }
}

/** Tests, arithmetic and cases of one limb, where no operand has an unknown bit. */
function evaluateKnown(
  plan: SettledPlan,
  values: SettledValues,
  position: number,
  start: number,
  end: number,
): boolean {
  const { pool, offset } = plan;
  const { a, b } = values;
  for (let index = start; index < end; index++) {
    if (b[offset[pool[index]]] !== 0) return evaluateWide(plan, values, position);
  }
  const left = a[offset[pool[start]]];
  const right = end - start > 1 ? a[offset[pool[start + 1]]] : 0;
  switch (plan.op[position]) {
    case Op.reduceAnd:
      return put(plan, values, position, left === topMask(plan.width[pool[start]]) >>> 0 ? 1 : 0, 0);
    case Op.reduceOr:
      return put(plan, values, position, left === 0 ? 0 : 1, 0);
    case Op.equal:
      return put(plan, values, position, left === right ? 1 : 0, 0);
    case Op.notEqual:
      return put(plan, values, position, left === right ? 0 : 1, 0);
    case Op.lessUnsigned:
      return put(plan, values, position, left < right ? 1 : 0, 0);
    case Op.lessEqualUnsigned:
      return put(plan, values, position, left <= right ? 1 : 0, 0);
    case Op.add:
      return put(plan, values, position, left + right, 0);
    case Op.subtract:
      return put(plan, values, position, left - right, 0);
    case Op.negate:
      return put(plan, values, position, -left, 0);
    case Op.multiply:
      return put(plan, values, position, Math.imul(left, right), 0);
    case Op.shiftLeft:
      return put(plan, values, position, right > 31 ? 0 : left << right, 0);
    case Op.shiftRight:
      return put(plan, values, position, right > 31 ? 0 : left >>> right, 0);
    case Op.select: {
      let taken = pool[end - 1];
      for (let index = start + 1; index < end - 1; index += 2) {
        if (a[offset[pool[index]]] !== left) continue;
        taken = pool[index + 1];
        break;
      }
      return put(plan, values, position, a[offset[taken]], 0);
    }
    default:
      return evaluateWide(plan, values, position);
  }
}

/** Stores planes of one limb, cut to the width; whether that changed anything. */
function put(plan: SettledPlan, values: SettledValues, position: number, high: number, unknown: number): boolean {
  const limb = plan.offset[position];
  const mask = topMask(plan.width[position]);
  const newA = (high & mask) >>> 0;
  const newB = (unknown & mask) >>> 0;
  if (values.a[limb] === newA && values.b[limb] === newB) return false;
  values.a[limb] = newA;
  values.b[limb] = newB;
  return true;
}
