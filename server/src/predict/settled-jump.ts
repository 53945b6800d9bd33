// How far a run may be taken at once: while some registers count by one each root period and every node that hears them
// keeps its value (a comparison not yet met, high bits not yet reached), the periods are alike but for those counts.
// Where a reader's operator is not understood, no jump is made; the run is then stepped, and nothing is lost but time.

import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { SettledMachine } from './settled-machine';
import type { PlannedControl } from './settled-plan';
import { Watch } from './settled-plan';

/** A register (index in the plan) that counts by one in each period of a jump. */
export interface JumpCounter {
  readonly register: number;
  readonly step: 1 | -1;
}

export interface QuietStretch {
  /** In this many periods from here, state by state, nothing but the counters changes. */
  readonly periods: number;
  readonly counters: readonly JumpCounter[];
}

export interface StretchQuestion {
  /** The registers (indices in the plan) that changed in the period before. */
  readonly movers: readonly number[];
  /** Per register the value the run began with: a stretch also ends there, so that a return is not jumped over. */
  readonly homes: Float64Array;
  /** Further bits that must stay. */
  readonly held: readonly Bit[];
}

/** Null where the movers are more than counters, or something that hears them does not stay. */
export function quietStretch(machine: SettledMachine, { movers, homes, held }: StretchQuestion): QuietStretch | null {
  const { plan } = machine;
  const rates = new Int8Array(plan.nodes.length);
  const counters: JumpCounter[] = [];
  const stretch: Stretch = { machine, rates, periods: Number.POSITIVE_INFINITY };
  for (const register of movers) {
    const step = stepOf(machine, register);
    if (step === null) return null;
    counters.push({ register, step });
    rates[plan.registers[register].position] = step;
    meet(stretch, plan.registers[register].position, homes[register]);
  }
  for (let position = 0; position < plan.nodes.length && stretch.periods > 0; position++) spreadRate(stretch, position);
  for (let position = 0; position < plan.nodes.length && stretch.periods > 0; position++) {
    if (rates[position] !== 0) holdWatchers(stretch, position, counters);
  }
  for (const { node, bit } of held)
    if (rates[plan.positionOf[node]] !== 0) keepAbove(stretch, plan.positionOf[node], bit);
  return Number.isFinite(stretch.periods) && stretch.periods > 0 ? { periods: stretch.periods, counters } : null;
}

interface Stretch {
  readonly machine: SettledMachine;
  /** Per position: by how much its value changes each period, as a number of its own width; 0 where it stays. */
  readonly rates: Int8Array;
  /** Periods for which everything so far stays as it is. */
  periods: number;
}

/** Whether a register is about to count up or down by one; at most 32 bits, all known. */
function stepOf({ plan, values }: SettledMachine, register: number): 1 | -1 | null {
  const { position, data } = plan.registers[register];
  const width = plan.width[position];
  // A memory's content is a number that counts nothing.
  if (width > 32 || plan.contents[position] !== undefined) return null;
  const [now, next] = [values.views[position], values.views[data]];
  if (now.b[0] !== 0 || next.b[0] !== 0) return null;
  const step = (((next.a[0] - now.a[0]) | 0) << (32 - width)) >> (32 - width);
  return width > 1 && (step === 1 || step === -1) ? step : null;
}

function numberAt({ plan, values }: SettledMachine, position: number): number {
  return values.a[plan.offset[position]];
}

/** The value of a position of rate ±1 stays within its width, and so orders as a number. */
function keepFromWrapping(stretch: Stretch, position: number): void {
  const last = 2 ** stretch.machine.plan.width[position] - 1;
  const value = numberAt(stretch.machine, position);
  limit(stretch, stretch.rates[position] === 1 ? last - value : value);
}

function limit(stretch: Stretch, periods: number): void {
  stretch.periods = Math.min(stretch.periods, periods);
}

/** The stretch ends before the position has this value; at once if it has it now. */
function meet(stretch: Stretch, position: number, value: number): void {
  const distance = (value - numberAt(stretch.machine, position)) * stretch.rates[position];
  if (distance > 0) limit(stretch, distance - 1);
  else if (distance === 0) limit(stretch, 0);
}

/** The stretch ends before the position passes between `border - 1` and `border`. */
function staySide(stretch: Stretch, position: number, border: number): void {
  const value = numberAt(stretch.machine, position);
  if (stretch.rates[position] === 1 && value < border) limit(stretch, border - 1 - value);
  if (stretch.rates[position] === -1 && value >= border) limit(stretch, value - border);
}

/** The stretch ends before bit `low` or a higher one of the position changes. */
function keepAbove(stretch: Stretch, position: number, low: number): void {
  const size = 2 ** low;
  const rest = numberAt(stretch.machine, position) % size;
  limit(stretch, stretch.rates[position] === 1 ? size - 1 - rest : rest);
}

/** What a position does while its operands move. */
function spreadRate(stretch: Stretch, position: number): void {
  const { rates, machine } = stretch;
  const { plan } = machine;
  const operands = plan.pool.subarray(plan.first[position], plan.first[position + 1]);
  if (!operands.some((operand) => rates[operand] !== 0)) {
    if (rates[position] !== 0) keepFromWrapping(stretch, position);
    return;
  }
  rates[position] = rateOf(stretch, position, operands) ?? giveUp(stretch);
  if (rates[position] !== 0) keepFromWrapping(stretch, position);
}

function giveUp(stretch: Stretch): 0 {
  stretch.periods = 0;
  return 0;
}

/** The rate, after limiting the stretch to where it holds; null where the operator is not followed. */
function rateOf(stretch: Stretch, position: number, operands: Uint32Array): number | null {
  const { rates, machine } = stretch;
  const { plan } = machine;
  const [left, right] = operands;
  if (plan.knotOf[position] >= 0 || plan.width[position] > 32 || !isKnown(machine, position)) return null;
  switch (plan.op[position]) {
    case Op.net:
    case Op.delay:
    case Op.buf:
    case Op.zeroExtend:
      return rates[left];
    case Op.not:
      return -rates[left];
    case Op.add:
      return rates[left] === 0 || rates[right] === 0 ? rates[left] + rates[right] : null;
    case Op.subtract:
      return rates[left] === 0 || rates[right] === 0 ? rates[left] - rates[right] : null;
    case Op.concat:
      return operands.subarray(0, -1).every((operand) => rates[operand] === 0)
        ? rates[operands[operands.length - 1]]
        : null;
    case Op.slice:
      if (plan.aux[position] === 0) return rates[left];
      keepAbove(stretch, left, plan.aux[position]);
      return 0;
    case Op.mux:
      if (rates[left] !== 0) return null;
      return rates[operands[numberAt(machine, left) === 1 ? 1 : 2]];
    case Op.select:
      return rateOfCase(stretch, position, operands);
    case Op.reduceOr:
      meet(stretch, left, 0);
      return 0;
    case Op.reduceAnd:
      meet(stretch, left, 2 ** plan.width[left] - 1);
      return 0;
    case Op.equal:
    case Op.notEqual:
      return compare(stretch, left, right, (moving, value) => meet(stretch, moving, value));
    case Op.lessUnsigned:
      return compareOrder(stretch, left, right, 0);
    case Op.lessEqualUnsigned:
      return compareOrder(stretch, left, right, 1);
    default:
      return null;
  }
}

function isKnown({ plan, values }: SettledMachine, position: number): boolean {
  return values.b[plan.offset[position]] === 0;
}

/** A comparison of one moving operand with one that stays. */
function compare(
  stretch: Stretch,
  left: number,
  right: number,
  hold: (moving: number, value: number) => void,
): 0 | null {
  const { rates, machine } = stretch;
  if (rates[left] !== 0 && rates[right] !== 0) return null;
  if (rates[left] !== 0) hold(left, numberAt(machine, right));
  else hold(right, numberAt(machine, left));
  return 0;
}

/** left < right for `inclusive` 0, left <= right for 1. */
function compareOrder(stretch: Stretch, left: number, right: number, inclusive: 0 | 1): 0 | null {
  const isLeftMoving = stretch.rates[left] !== 0;
  return compare(stretch, left, right, (moving, value) =>
    staySide(stretch, moving, isLeftMoving ? value + inclusive : value + 1 - inclusive),
  );
}

/** Labels that stay are borders for a moving selector; the value is that of the arm taken now. */
function rateOfCase(stretch: Stretch, position: number, operands: Uint32Array): number | null {
  const { rates, machine } = stretch;
  const { plan } = machine;
  if (plan.aux[position] >= 0) return null;
  const [selector] = operands;
  let taken = operands.length - 1;
  for (let index = operands.length - 3; index >= 1; index -= 2) {
    if (rates[operands[index]] !== 0 || !isKnown(machine, operands[index])) return null;
    if (rates[selector] !== 0) meet(stretch, selector, numberAt(machine, operands[index]));
    if (numberAt(machine, operands[index]) === numberAt(machine, selector)) taken = index + 1;
  }
  return rates[operands[taken]];
}

/** Registers that watch a moving position: as data only their own, as clock or control a bit that stays. */
function holdWatchers(stretch: Stretch, position: number, counters: readonly JumpCounter[]): void {
  const { plan } = stretch.machine;
  for (let index = plan.watchFirst[position]; index < plan.watchFirst[position + 1]; index++) {
    const register = plan.watches[index] >>> 2;
    const what = plan.watches[index] & 3;
    const planned = plan.registers[register];
    if (what === Watch.data) {
      const own = counters.find((counter) => counter.register === register);
      if (own === undefined || own.step !== stretch.rates[position]) stretch.periods = 0;
    }
    if (what === Watch.clock) keepAbove(stretch, position, planned.clockBit);
    if (what === Watch.asynchronous) holdControls(stretch, position, planned.asynchronous);
  }
}

function holdControls(stretch: Stretch, position: number, controls: readonly PlannedControl[]): void {
  for (const { control, bit, value } of controls) {
    if (control === position) keepAbove(stretch, position, bit);
    if (value === position) stretch.periods = 0;
  }
}
