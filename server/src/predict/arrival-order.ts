// Who wins when data and clock leave at the same root edge (definition 28): decided on the difference of their arrivals
// with what both paths share taken out (21, 29). Equal times are a race, whatever the set states for setup and hold.

import type { ClockNetwork } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import { setOfRegister } from '../delays/own-delays';
import { spanningTriple, zeroTriple } from '../delays/triple';
import type { DelayTriple, Netlist, RegisterId } from '../netlist/netlist';
import { type Arrivals, directionOf } from './arrival';
import type { LogicDelays } from './arrival-logic';
import type { TransferOrder } from './settled-machine';

export interface OrderContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly delaySet: DelaySet;
  readonly arrivals: Arrivals;
  readonly logic: LogicDelays;
}

/** Each pair is decided once. A driven source moves at the root edge itself. */
export function createTransferOrder(context: OrderContext): TransferOrder {
  const known = new Map<string, 'old' | 'new' | 'race'>();
  return (from, to) => {
    const key = `${from ?? 'source'} ${to}`;
    const decided = known.get(key) ?? decide(context, from, to);
    known.set(key, decided);
    return decided;
  };
}

function decide(context: OrderContext, from: RegisterId | null, to: RegisterId): 'old' | 'new' | 'race' {
  const { delaySet, logic } = context;
  const paths = unsharedPaths(context, from, to);
  if (paths === null) return 'race';
  // A path of the logic may be shorter than its longest by all of it.
  const data = { min: paths.data.min, max: paths.data.max + logic.toDataOf(to).max };
  const { clock } = paths;
  const { setup, hold } = setOfRegister(delaySet, to);
  if (data.max < clock.min && data.max + (setup?.max ?? 0) <= clock.min) return 'new';
  if (data.min > clock.max && data.min >= clock.max + (hold?.max ?? 0)) return 'old';
  return 'race';
}

/** Arrival of the launched output and of the sampling clock edge, counted from where their paths part. */
export function unsharedPaths(
  context: OrderContext,
  from: RegisterId | null,
  to: RegisterId,
): { readonly data: DelayTriple; readonly clock: DelayTriple } | null {
  const { arrivals } = context;
  const clock = arrivals.clockOf(to);
  if (clock === null) return null;
  if (from === null) return { data: zeroTriple, clock };
  const output = arrivals.outputOf(from);
  if (output.rise === null || output.fall === null) return null;
  const shared = lastShared(context, from, to);
  if (shared === from) return { data: zeroTriple, clock: since(clock, outputTowards(context, shared, to)) };
  const data = spanningTriple(output.rise, output.fall);
  if (shared === null) return { data, clock };
  return {
    data: since(data, outputTowards(context, shared, from)),
    clock: since(clock, outputTowards(context, shared, to)),
  };
}

/** A later point of a path, counted from an earlier point of the same path. */
function since(later: DelayTriple, earlier: DelayTriple): DelayTriple {
  return { min: later.min - earlier.min, typ: later.typ - earlier.typ, max: later.max - earlier.max };
}

/** The last register that the path to `from`'s output and the path to `to`'s clock pin both pass through. */
function lastShared({ network }: OrderContext, from: RegisterId, to: RegisterId): RegisterId | null {
  const launch = new Set([from, ...clockPath(network, from)]);
  return clockPath(network, to).find((register) => launch.has(register)) ?? null;
}

/** The registers whose outputs lead to a register's clock, nearest first; up to where more than one does. */
function clockPath(network: ClockNetwork, start: RegisterId): RegisterId[] {
  const path: RegisterId[] = [];
  const passed = new Set<RegisterId>([start]);
  for (let register = sourceOfClock(network, start); register !== null; register = sourceOfClock(network, register)) {
    if (passed.has(register)) return path;
    passed.add(register);
    path.push(register);
  }
  return path;
}

function sourceOfClock(network: ClockNetwork, register: RegisterId): RegisterId | null {
  const { sourceRegisters } = network.clocks[network.registers[register].clock];
  return sourceRegisters.length === 1 ? sourceRegisters[0].register : null;
}

/** When `through`'s output changes in the direction that leads on towards a register's clock. */
function outputTowards({ netlist, network, arrivals }: OrderContext, through: RegisterId, to: RegisterId): DelayTriple {
  const path = [to, ...clockPath(network, to)];
  const next = path[path.indexOf(through) - 1];
  const { sourceRegisters } = network.clocks[network.registers[next].clock];
  const { edge } = netlist.registers[next];
  const isTurned = sourceRegisters[0].inverted;
  const direction = (edge === 'rising') === isTurned ? 'falling' : 'rising';
  return directionOf(arrivals.outputOf(through), direction) ?? zeroTriple;
}
