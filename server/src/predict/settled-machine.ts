// The state of a settled stepper: values, what is still to be evaluated, and what an instant has to remember of the
// time before it. Made here, moved by `settled.ts`; see there for the use.

import type { RegisterId } from '../netlist/netlist';
import { type Bits, fromPlanes, limbCount, topMask } from '../netlist/four-state';
import { Op } from '../netlist/operators';
import { createValues, type SettledValues, store } from './settled-logic';
import { type SettledPlan, Watch } from './settled-plan';

/**
 * Whether a register that samples in a later step of an instant meets the old or the new value of what changed earlier
 * in it. `from` is the register whose output changed, or null for a driven source.
 */
export type TransferOrder = (from: RegisterId | null, to: RegisterId) => 'old' | 'new' | 'race';

export interface SettledChange {
  /** 1 for registers clocked by the source itself, 2 for those clocked by their outputs, … */
  readonly step: number;
  /** Index in `plan.registers`. */
  readonly register: number;
  /** Windows that hold only during the call: copy what is to be kept. */
  readonly from: Bits;
  readonly to: Bits;
  readonly kind: 'sampled' | 'asynchronous';
}

/** Why a register's output is asked to change. */
export const AnswerKind = { none: 0, sampled: 1, asynchronous: 2 } as const;

export interface SettledMachine {
  readonly plan: SettledPlan;
  readonly values: SettledValues;
  readonly order: TransferOrder;
  /** Steps inside one instant before it is called an oscillation. */
  readonly stepLimit: number;
  /** Positions to evaluate, one bit each. */
  readonly dirty: Uint32Array;
  /** Per register: its data as it stood before the instant. */
  readonly sampled: readonly Bits[];
  /** Per register: the level of its clock pin when last looked at. */
  readonly pins: Uint8Array;
  /** Per register and control: the level of the control before the instant, and when last looked at. */
  readonly controls: readonly Uint8Array[];
  readonly lastControls: readonly Uint8Array[];
  /** Registers whose data or control has changed since the instant began. */
  readonly stale: Marks;
  /** Registers whose pin or control changed in this step. */
  readonly called: Marks;
  /** The registers that answer in this step, and per register what asks it to change, as `AnswerKind`. */
  readonly answering: Uint32Array;
  readonly kinds: Uint8Array;
  /** Per register: room for what its output becomes in this step. */
  readonly next: readonly Bits[];
  /** Positions of sources that changed in this instant, and all limbs as those sources were before it. */
  readonly moved: Marks;
  readonly before: { readonly a: Uint32Array; readonly b: Uint32Array };
  /** Per register: in how many instants it has sampled, certainly or perhaps. */
  readonly samples: Float64Array;
  /** False until everything has been evaluated once. */
  begun: boolean;
  /** How often a sample hung on the order within an instant. */
  races: number;
  /** How many nodes have been evaluated: what a limit on work counts. */
  work: number;
  /** Told of every change of a register's output. */
  listener: ((change: SettledChange) => void) | null;
}

/** A set of numbers below a bound, listed in the order they came. Never shrinks, so that an instant allocates nothing. */
export interface Marks {
  readonly has: Uint8Array;
  readonly list: Uint32Array;
  count: number;
}

function createMarks(bound: number): Marks {
  return { has: new Uint8Array(bound), list: new Uint32Array(bound), count: 0 };
}

export interface MachineOptions {
  /** Default: every transfer inside one instant is a race. */
  readonly order?: TransferOrder;
  readonly stepLimit?: number;
}

export function createMachine(
  plan: SettledPlan,
  { order = () => 'race', stepLimit = 10_000 }: MachineOptions = {},
): SettledMachine {
  const values = createValues(plan);
  for (let position = 0; position < plan.nodes.length; position++) {
    store(values, position, sourceValue(plan, position, plan.width[position]));
  }
  const count = plan.registers.length;
  return {
    plan,
    values,
    order,
    stepLimit,
    dirty: new Uint32Array((plan.nodes.length + 31) >>> 5),
    sampled: plan.registers.map(({ data }) => copyOf(values.views[data])),
    pins: new Uint8Array(count),
    controls: plan.registers.map(({ asynchronous }) => new Uint8Array(asynchronous.length)),
    lastControls: plan.registers.map(({ asynchronous }) => new Uint8Array(asynchronous.length)),
    stale: createMarks(count),
    called: createMarks(count),
    answering: new Uint32Array(count),
    kinds: new Uint8Array(count),
    next: plan.registers.map(({ position }) => copyOf(values.views[position])),
    moved: createMarks(plan.nodes.length),
    before: { a: new Uint32Array(plan.limbs), b: new Uint32Array(plan.limbs) },
    samples: new Float64Array(count),
    begun: false,
    races: 0,
    work: 0,
    listener: null,
  };
}

/** A position has changed: its readers are to be evaluated, and registers that watch it take notice. */
export function markReaders({ plan, dirty, called, stale }: SettledMachine, position: number): void {
  for (let index = plan.readerFirst[position]; index < plan.readerFirst[position + 1]; index++) {
    const reader = plan.readers[index];
    dirty[reader >>> 5] |= 1 << (reader & 31);
  }
  for (let index = plan.watchFirst[position]; index < plan.watchFirst[position + 1]; index++) {
    const register = plan.watches[index] >>> 2;
    const what = plan.watches[index] & 3;
    if (what !== Watch.data) mark(called, register);
    if (what !== Watch.clock) mark(stale, register);
  }
}

export function mark(marks: Marks, index: number): void {
  if (marks.has[index] === 1) return;
  marks.has[index] = 1;
  marks.list[marks.count++] = index;
}

/** Unmarks everything marked since there were `from` of them. */
export function clearMarks(marks: Marks, from = 0): void {
  for (let at = from; at < marks.count; at++) marks.has[marks.list[at]] = 0;
  marks.count = from;
}

/** Gives a source, register or latch a new value; what it was before the instant is remembered. */
export function changeSource(machine: SettledMachine, position: number, bits: Bits): boolean {
  const view = machine.values.views[position];
  if (sameBits(view, bits)) return false;
  if (machine.moved.has[position] === 0) {
    mark(machine.moved, position);
    machine.before.a.set(view.a, machine.plan.offset[position]);
    machine.before.b.set(view.b, machine.plan.offset[position]);
  }
  store(machine.values, position, bits);
  markReaders(machine, position);
  return true;
}

export function copyOf(bits: Bits): Bits {
  return { width: bits.width, a: bits.a.slice(), b: bits.b.slice() };
}

export function sameBits(left: Bits, right: Bits): boolean {
  for (let limb = 0; limb < left.a.length; limb++) {
    if (left.a[limb] !== right.a[limb] || left.b[limb] !== right.b[limb]) return false;
  }
  return true;
}

/** x, but for constants, and for nets that nothing drives: z. */
function sourceValue(plan: SettledPlan, position: number, width: number): Bits {
  if (plan.op[position] === Op.constant) return plan.netlist.constants[plan.aux[position]];
  const isFloating = plan.op[position] === Op.undriven && plan.netlist.signals[plan.aux[position]].kind === 'net';
  return filled(width, isFloating ? 'z' : 'x');
}

export function filled(width: number, digit: 'x' | 'z'): Bits {
  const high = digit === 'x' ? -1 : 0;
  if (width <= 32) return fromPlanes(width, high, -1);
  const a = new Uint32Array(limbCount(width)).fill(high);
  const b = new Uint32Array(limbCount(width)).fill(-1);
  a[a.length - 1] &= topMask(width);
  b[b.length - 1] &= topMask(width);
  return { width, a, b };
}
