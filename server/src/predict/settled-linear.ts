// Registers that are linear feedback shift registers of maximal length, told from the netlist alone: between a register
// and its own data stand only wiring and exclusive ors, so the next state is an affine map, and its order is proven by
// algebra. For registers too wide to be run through their period.

import { fromBigInt, toBigInt } from '../netlist/four-state';
import type { Netlist, NodeId, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { rest, setState } from './settled';
import { activity, levelAt } from './settled-logic';
import type { SettledMachine } from './settled-machine';
import { type PlannedRegister, settledOperands } from './settled-plan';
import { bitsOfRegisters, type Run, type RunContext, startRun, stepRun } from './settled-run';
import { restoreSnapshot, takeSnapshot } from './settled-snapshot';
import { type AffineMap, feedbackOf } from './sequence-linear';
import { fixedStateOfMaximal } from './sequence-order';

export interface MaximalShift {
  /** The only state that never changes. */
  readonly lockUp: bigint;
  /** Exponents, largest first. */
  readonly polynomial: readonly number[];
}

/** By register id: wider than what `limits.period` lets run, clocked by the root itself, not in its lock-up state. */
export function* findMaximalShifts(context: RunContext): Generator<void, ReadonlyMap<RegisterId, MaximalShift>> {
  const { netlist, network, limits } = context;
  const found = new Map<RegisterId, MaximalShift>();
  for (const { register: id, stage, root } of network.registers) {
    const register = netlist.registers[id];
    if (2 ** register.width <= limits.period || stage !== 1 || root === null) continue;
    if (!hearsOnlyItself(netlist, register)) continue;
    const started = yield* startRun(context, bitsOfRegisters(netlist, [id]), root.root);
    if (started.kind === 'refused') continue;
    const { machine } = started.value;
    const start = toBigInt(machine.values.views[machine.plan.positionOf[register.node]]);
    if (!samplesEachPeriod(started.value)) continue;
    const map = affineNextState(machine, register);
    const polynomial = map === null ? null : feedbackOf(map, register.width);
    const lockUp = map === null || polynomial === null ? null : fixedStateOfMaximal(map, register.width);
    if (polynomial !== null && lockUp !== null && start !== null && start !== lockUp)
      found.set(id, { lockUp, polynomial });
  }
  return found;
}

/** One period, to see the clock tick: an enable of the clock may hold it. */
function samplesEachPeriod(run: Run): boolean {
  const before = run.machine.samples[0];
  stepRun(run, () => {});
  return run.machine.samples[0] === before + 1;
}

/** The next state as a map of the present one, where nothing but the register itself can change it. */
function affineNextState(machine: SettledMachine, register: Register): AffineMap | null {
  const { plan } = machine;
  const [own, ...others] = plan.registers;
  if (others.length > 0 || plan.latches.length > 0 || !isAffine(machine, own) || !isFree(machine, own)) return null;
  const home = takeSnapshot(machine);
  const constant = nextOf(machine, register, own, 0n);
  const columns = Array.from({ length: register.width }, (_, bit) => nextOf(machine, register, own, 1n << BigInt(bit)));
  restoreSnapshot(machine, home);
  if (constant === null || columns.includes(null)) return null;
  return { columns: columns.map((column) => (column as bigint) ^ constant), constant };
}

function nextOf(
  machine: SettledMachine,
  { node, width }: Register,
  { data }: PlannedRegister,
  state: bigint,
): bigint | null {
  setState(machine, node, fromBigInt(width, state));
  rest(machine);
  return toBigInt(machine.values.views[data]);
}

/** The clock is the root, straight or through wiring, and no asynchronous control acts or hears the register. */
function isFree(
  { plan, values }: SettledMachine,
  { clock, asynchronous, position, register }: PlannedRegister,
): boolean {
  const heard = hearsRegister({ plan }, position);
  if (heard[clock] === 1) return false;
  return asynchronous.every(({ control, bit }, index) => {
    const { active } = register.asynchronous[index];
    return heard[control] === 0 && activity(levelAt(plan, values, control, bit), active) === 'no';
  });
}

/** Per position: 1 where it can change with the register. */
function hearsRegister({ plan }: Pick<SettledMachine, 'plan'>, start: number): Uint8Array {
  const heard = new Uint8Array(plan.nodes.length);
  heard[start] = 1;
  for (let position = 0; position < plan.nodes.length; position++) {
    const operands = plan.pool.subarray(plan.first[position], plan.first[position + 1]);
    if (operands.some((operand) => heard[operand] === 1)) heard[position] = 1;
  }
  return heard;
}

/** Every node between the register and its data keeps sums: wiring, inversion, exclusive or, or a choice already made. */
function isAffine(machine: SettledMachine, { position: start }: PlannedRegister): boolean {
  const { plan } = machine;
  const heard = hearsRegister(machine, start);
  return heard.every((mark, position) => {
    if (mark === 0 || position === start) return true;
    if (plan.knotOf[position] >= 0) return false;
    if (plan.op[position] === Op.mux) return heard[plan.pool[plan.first[position]]] === 0;
    return affineOperators.has(plan.op[position]);
  });
}

/** Whether the register's data hears no other register and no latch: asked first, since most do. */
function hearsOnlyItself(netlist: Netlist, { node: own, data }: Register): boolean {
  const { op } = netlist.nodes;
  const seen = new Set<NodeId>([data]);
  for (const node of seen) {
    if (op[node] === Op.latch || (op[node] === Op.register && node !== own)) return false;
    for (const operand of settledOperands(netlist, node)) seen.add(operand);
  }
  return true;
}

const affineOperators: ReadonlySet<number> = new Set([
  Op.net,
  Op.delay,
  Op.buf,
  Op.not,
  Op.concat,
  Op.slice,
  Op.zeroExtend,
  Op.signExtend,
  Op.xor,
  Op.xnor,
  Op.reduceXor,
]);
