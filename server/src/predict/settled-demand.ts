// Which bits of the state can ever influence what is watched: the low bits of a counter do not hear its high ones. A
// state that returns in these bits proves a period. Holds where no unknown value can arise, since an unknown high bit
// would make a whole sum unknown; elsewhere every bit counts.

import { type Bits, fromLimbs, limbCount, ones, zeroPlane } from '../netlist/four-state';
import { replaceSlice, slice } from '../netlist/four-state-parts';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { SettledMachine } from './settled-machine';
import type { PlannedRegister, SettledPlan } from './settled-plan';

/** A mask per limb of the machine's values. The machine is at rest; `watched` lies inside its plan. */
export function demandedLimbs(machine: SettledMachine, watched: readonly Bit[]): Uint32Array {
  const demand = createDemand(machine.plan);
  if (!staysKnown(machine)) {
    demand.masks.fill(0xffffffff);
    return demand.masks;
  }
  const registerAt = new Map(machine.plan.registers.map((register) => [register.position, register]));
  for (const { node, bit } of watched) demand.addBit(machine.plan.positionOf[node], bit);
  for (let position = demand.takeNext(); position !== null; position = demand.takeNext()) {
    spread(machine.plan, demand, position);
    const register = registerAt.get(position);
    if (register !== undefined) spreadThroughRegister(machine.plan, demand, register);
  }
  return demand.masks;
}

type Demand = ReturnType<typeof createDemand>;

function createDemand(plan: SettledPlan) {
  const masks = new Uint32Array(plan.limbs);
  /** Positions of which more is asked than has been passed on. */
  const waiting: number[] = [];
  const isWaiting = new Uint8Array(plan.nodes.length);

  function join(position: number, limb: number, asked: number): void {
    const joined = (masks[limb] | asked) >>> 0;
    if (joined === masks[limb]) return;
    masks[limb] = joined;
    if (isWaiting[position] === 1) return;
    isWaiting[position] = 1;
    waiting.push(position);
  }

  const demand = {
    masks,
    takeNext(): number | null {
      const position = waiting.pop() ?? null;
      if (position !== null) isWaiting[position] = 0;
      return position;
    },
    of(position: number): Bits {
      const width = plan.width[position];
      const from = plan.offset[position];
      const a = masks.slice(from, from + limbCount(width));
      return fromLimbs(width, a, zeroPlane(a.length));
    },
    add(position: number, bits: Bits): void {
      const from = plan.offset[position];
      for (let limb = 0; limb < bits.a.length; limb++) join(position, from + limb, bits.a[limb]);
    },
    addBit(position: number, bit: number): void {
      join(position, plan.offset[position] + (bit >>> 5), 1 << (bit & 31));
    },
    addAll(position: number): void {
      demand.add(position, ones(plan.width[position]));
    },
  };
  return demand;
}

/** What a position's demanded bits ask of its operands. */
function spread(plan: SettledPlan, demand: Demand, position: number): void {
  const bits = demand.of(position);
  if (bits.a.every((limb) => limb === 0)) return;
  const operands = plan.pool.subarray(plan.first[position], plan.first[position + 1]);
  switch (plan.op[position]) {
    case Op.net:
    case Op.delay:
    case Op.buf:
    case Op.not:
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.xor:
    case Op.xnor:
      for (const operand of operands) demand.add(operand, bits);
      return;
    case Op.slice:
      demand.add(operands[0], replaceSlice(none(plan.width[operands[0]]), plan.aux[position], bits));
      return;
    case Op.concat: {
      let low = plan.width[position];
      for (const operand of operands) {
        low -= plan.width[operand];
        demand.add(operand, slice(bits, low, plan.width[operand]));
      }
      return;
    }
    case Op.zeroExtend:
      demand.add(operands[0], slice(bits, 0, plan.width[operands[0]]));
      return;
    case Op.add:
    case Op.subtract:
    case Op.negate:
    case Op.multiply:
      for (const operand of operands) demand.add(operand, upToHighest(bits));
      return;
    case Op.mux:
      demand.addAll(operands[0]);
      demand.add(operands[1], bits);
      demand.add(operands[2], bits);
      return;
    case Op.select:
      operands.forEach((operand, index) => {
        const isValue = index > 0 && (index % 2 === 0 || index === operands.length - 1);
        if (isValue) demand.add(operand, bits);
        else demand.addAll(operand);
      });
      return;
    default:
      for (const operand of operands) demand.addAll(operand);
  }
}

/** A register whose bits could meet a race or a clear of its own making is taken whole. */
function spreadThroughRegister(plan: SettledPlan, demand: Demand, register: PlannedRegister): void {
  const { position, data, clock, clockBit, asynchronous } = register;
  if (demand.of(position).a.every((limb) => limb === 0)) return;
  const isSimple = isSource(plan, clock) && asynchronous.every(({ control }) => isSource(plan, control));
  if (!isSimple) demand.addAll(position);
  demand.add(data, demand.of(position));
  demand.addBit(clock, clockBit);
  for (const { control, bit, value } of asynchronous) {
    demand.addBit(control, bit);
    demand.add(value, demand.of(position));
  }
}

/** A driven source, nets looked through. */
function isSource(plan: SettledPlan, start: number): boolean {
  let position = start;
  while (plan.op[position] === Op.net) position = plan.pool[plan.first[position]];
  return plan.op[position] === Op.input || plan.op[position] === Op.undriven || plan.op[position] === Op.blackBox;
}

/** Every source is known, and no operator makes an unknown out of known operands. */
function staysKnown({ plan, values }: SettledMachine): boolean {
  for (let position = 0; position < plan.nodes.length; position++) {
    const isState = plan.op[position] === Op.register || plan.op[position] === Op.latch;
    const isKnown = values.views[position].b.every((limb) => limb === 0);
    if ((plan.op[position] <= Op.hole || isState) && !isKnown) return false;
    if (plan.knotOf[position] >= 0 || makesUnknown.has(plan.op[position])) return false;
  }
  return true;
}

const makesUnknown: ReadonlySet<number> = new Set([
  Op.resolve,
  Op.tristate,
  Op.divideUnsigned,
  Op.divideSigned,
  Op.moduloUnsigned,
  Op.moduloSigned,
  Op.powerUnsigned,
  Op.powerSigned,
  Op.readAt,
  Op.memoryRead,
]);

function none(width: number): Bits {
  const plane = zeroPlane(limbCount(width));
  return { width, a: plane, b: plane };
}

function upToHighest(bits: Bits): Bits {
  let limb = bits.a.length - 1;
  while (bits.a[limb] === 0) limb -= 1;
  const highest = 32 * limb + 31 - Math.clz32(bits.a[limb]);
  return replaceSlice(none(bits.width), 0, ones(highest + 1));
}
