// Whether bits that cross together change one at a time: proven by following their registers, and the counters that they
// are made from, through every state that free inputs can lead to from reset (definition 39). Single-bit conditions that
// hear anything else are free, which can only add states. Stops past a fixed amount of work and says so. An
// asynchronous reset of the sender in the middle of its work changes several bits and is not looked at.

import { bitsOf, type Bits, toBinary } from '../netlist/four-state';
import { evaluate } from '../netlist/evaluate';
import type { Bit, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Context } from './context';
import { type Machine, machineOf } from './gray-machine';
import type { RegisterClocking } from './network';
import type { Pace } from './pace';

/** `proven` for every state; `so-far`: in every state looked at, and there were more; `no`: not, or nothing to follow. */
export type OneAtATime = 'proven' | 'so-far' | 'no';

export function* changesOneAtATime(
  context: Context,
  clocking: readonly RegisterClocking[],
  bits: readonly Bit[],
  pace: Pace,
): Generator<void, OneAtATime> {
  const machine = machineOf(context, clocking, bits);
  if (machine === null) return 'no';
  const start = startOf(clocking, machine.registers);
  if (start === null) return 'no';
  return yield* followAll(context, machine, start, pace);
}

/** As `changesOneAtATime` follows them: every step by the digits of the bits, in the order of the bits; the start too. */
export function followMachine(
  context: Context,
  clocking: readonly RegisterClocking[],
  bits: readonly Bit[],
  visit: (from: string, to: string) => void,
): 'all' | 'some' | 'none' {
  const machine = machineOf(context, clocking, bits);
  const start = machine === null ? null : startOf(clocking, machine.registers);
  if (machine === null || start === null) return 'none';
  const settings = settingsOf(context, machine);
  const perState = settings.length * Math.max(1, machine.order.length);
  const seen = new Set([start.join(' ')]);
  const waiting = [start];
  let work = 0;
  for (let state = waiting.pop(); state !== undefined; state = waiting.pop()) {
    work += perState;
    if (work > fewWork) return 'some';
    for (const setting of settings) {
      const next = stepped(context, machine, state, setting);
      if (next === null) return 'none';
      visit(watchedDigits(machine, state), watchedDigits(machine, next));
      const key = next.join(' ');
      if (seen.has(key)) continue;
      seen.add(key);
      waiting.push(next);
    }
  }
  return 'all';
}

/** Node evaluations where the answer is wanted at once. */
const fewWork = 60_000;

function watchedDigits({ registers, watched }: Machine, state: readonly string[]): string {
  return watched
    .map(({ bit, node }) => {
      const index = registers.findIndex((register) => register.node === node);
      return state[index][registers[index].width - 1 - bit];
    })
    .join('');
}

/** Node evaluations: a pointer of ten bits with two free conditions takes about a quarter of them. */
const mostWork = 600_000;

/** Digits by register, as reset or initial value leave them; null where a bit is unknown. */
function startOf(clocking: readonly RegisterClocking[], registers: readonly Register[]): readonly string[] | null {
  const digits = registers.map(({ id, initial }) => {
    const { asynchronous, synchronous } = clocking[id];
    return asynchronous.at(-1)?.digits ?? synchronous.at(-1)?.digits ?? toBinary(initial);
  });
  return digits.every((text) => /^[01]+$/.test(text)) ? digits : null;
}

function* followAll(
  context: Context,
  machine: Machine,
  start: readonly string[],
  pace: Pace,
): Generator<void, OneAtATime> {
  const settings = settingsOf(context, machine);
  const perState = settings.length * Math.max(1, machine.order.length);
  const seen = new Set([start.join(' ')]);
  const waiting = [start];
  let work = 0;
  for (let state = waiting.pop(); state !== undefined; state = waiting.pop()) {
    work += perState;
    if (work > mostWork) return 'so-far';
    if (pace.spend(perState)) yield;
    for (const setting of settings) {
      const next = stepped(context, machine, state, setting);
      if (next === null || changed(machine, state, next) > 1) return 'no';
      const key = next.join(' ');
      if (seen.has(key)) continue;
      seen.add(key);
      waiting.push(next);
    }
  }
  return 'proven';
}

/** Every setting of the free bits, as values of the nodes that they belong to. */
function settingsOf({ nodes }: Context, { free, pinned }: Machine): ReadonlyMap<NodeId, Bits>[] {
  const owners = [...new Set([...free, ...pinned].map(({ node }) => node))];
  return Array.from({ length: 2 ** free.length }, (_, setting) => {
    const levels = new Map<string, string>([
      ...free.map(({ node, bit }, index) => [`${node}.${bit}`, String((setting >> index) & 1)] as const),
      ...pinned.map(({ node, bit, level }) => [`${node}.${bit}`, level] as const),
    ]);
    return new Map(
      owners.map((node) => {
        const width = nodes.width[node];
        const digits = Array.from({ length: width }, (_, index) => levels.get(`${node}.${width - 1 - index}`));
        return [node, bitsOf(digits.join(''))];
      }),
    );
  });
}

/** The next state; null where a bit of it is unknown. */
function stepped(
  { nodes, netlist }: Context,
  { registers, order }: Machine,
  state: readonly string[],
  setting: ReadonlyMap<NodeId, Bits>,
): readonly string[] | null {
  const values = new Map(setting);
  for (const [index, { node }] of registers.entries()) values.set(node, bitsOf(state[index]));
  for (const node of order) {
    if (nodes.op[node] === Op.constant) values.set(node, netlist.constants[nodes.aux[node]]);
    else {
      const operands: Bits[] = [];
      for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++) {
        const value = values.get(nodes.pool[entry] as NodeId);
        // A loop without a register.
        if (value === undefined) return null;
        operands.push(value);
      }
      values.set(node, evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], netlist));
    }
  }
  const next = registers.map(({ data }) => toBinary(values.get(data) as Bits));
  return next.every((digits) => /^[01]+$/.test(digits)) ? next : null;
}

/** How many of the watched bits differ. */
function changed({ registers, watched }: Machine, from: readonly string[], to: readonly string[]): number {
  return watched.filter(({ node, bit }) => {
    const index = registers.findIndex((register) => register.node === node);
    const at = registers[index].width - 1 - bit;
    return from[index][at] !== to[index][at];
  }).length;
}
