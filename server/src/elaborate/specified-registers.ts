// Outputs that are a register's, buffered or inverted, and whose paths all come from its clock or its asynchronous
// controls: the register itself takes the delay that all its outputs have at least, and each output keeps what it has
// beyond. Any other output keeps its paths.

import type {
  Bit,
  DelayTriple,
  ExplicitDelay,
  Netlist,
  NodeId,
  PathDelay,
  Register,
  RegisterId,
} from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { pinKey, pinSource, type Wires } from './pin-source';
import { delayOfPaths, type PathOutput } from './path-outputs';
import { beyond, isZero, leastOf, spanOf } from './triples';

export interface Directions {
  readonly rise: DelayTriple;
  readonly fall: DelayTriple;
}

export interface RegisterDelays {
  readonly registers: ReadonlyMap<RegisterId, { readonly clockToQ: Directions; readonly clear: Directions | null }>;
  /** What stays before each output; null for nothing. */
  readonly kept: ReadonlyMap<PathOutput, ExplicitDelay | null>;
}

/** How an output follows its registers, in the registers' own directions. */
interface Followed {
  readonly output: PathOutput;
  readonly registers: ReadonlySet<RegisterId>;
  readonly inverted: boolean;
  readonly clockToQ: Directions;
  readonly clear: Directions | null;
}

export interface Surroundings {
  /** How long the delays inside a module take up to a node. */
  distributed(node: NodeId): DelayTriple;
  /** Nets of the inputs of modules with paths. */
  readonly stops: ReadonlySet<NodeId>;
}

/** Yields now and then. */
export function* registerDelays(
  netlist: Netlist,
  outputs: readonly PathOutput[],
  { distributed, stops }: Surroundings,
): Generator<void, RegisterDelays> {
  const followed = new Map<PathOutput, Followed>();
  const byRegister = new Map<RegisterId, Followed[]>();
  for (const [index, output] of outputs.entries()) {
    if (index % 64 === 63) yield;
    const one = follow(netlist, output);
    if (one === null) continue;
    followed.set(output, one);
  }
  yield;
  leaveShared(netlist, outputs, followed, stops);
  for (const one of followed.values())
    for (const id of one.registers) byRegister.set(id, [...(byRegister.get(id) ?? []), one]);
  const registers = new Map([...byRegister].map(([id, ones]) => [id, sharedDelay(ones)] as const));
  const kept = new Map<PathOutput, ExplicitDelay | null>();
  for (const output of outputs) {
    const one = followed.get(output);
    kept.set(output, one === undefined ? delayOfPaths(output.paths, distributed(output.driver)) : rest(one, registers));
  }
  return { registers, kept };
}

/**
 * A register that logic before some other output hears too keeps no delay of its own: there the paths to that output are
 * the whole.
 */
function leaveShared(
  { nodes }: Netlist,
  outputs: readonly PathOutput[],
  followed: Map<PathOutput, Followed>,
  stops: ReadonlySet<NodeId>,
): void {
  const pending = outputs.filter((output) => !followed.has(output)).map(({ driver }) => driver);
  const seen = new Set<NodeId>(stops);
  const byRegister = new Map<RegisterId, PathOutput[]>();
  for (const [output, { registers }] of followed)
    for (const id of registers) byRegister.set(id, [...(byRegister.get(id) ?? []), output]);
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++)
      pending.push(nodes.pool[entry] as NodeId);
    if (nodes.op[node] !== Op.register) continue;
    // Its other outputs stay as they are written as well, and so do the registers behind those.
    for (const output of byRegister.get(nodes.aux[node] as RegisterId) ?? []) {
      followed.delete(output);
      pending.push(output.driver);
    }
  }
}

function follow(netlist: Netlist, output: PathOutput): Followed | null {
  const { driver, paths } = output;
  const ends = paths.map((_, bit) => pinSource(netlist, { node: driver, bit }));
  const [{ inverted }] = ends;
  const registers = new Set<RegisterId>();
  const clocked: PathDelay[] = [];
  const cleared: PathDelay[] = [];
  for (const [bit, end] of ends.entries()) {
    const register = registerAt(netlist, end.bit);
    if (register === null || end.inverted !== inverted || register.delay >= 0) return null;
    const sorted = paths[bit].map((path) => ({ path, role: roleOf(netlist, register, path) }));
    if (sorted.some(({ role }) => role === 'other') || !sorted.some(({ role }) => role === 'clock')) return null;
    registers.add(register.id);
    clocked.push(...sorted.flatMap(({ path, role }) => (role === 'clock' ? [path] : [])));
    cleared.push(...sorted.flatMap(({ path, role }) => (role === 'control' ? [path] : [])));
  }
  const clockToQ = directions(clocked, inverted);
  return { output, registers, inverted, clockToQ, clear: cleared.length === 0 ? null : directions(cleared, inverted) };
}

function registerAt({ nodes, registers }: Netlist, { node }: Bit): Register | null {
  return nodes.op[node] === Op.register ? registers[nodes.aux[node]] : null;
}

function roleOf(wires: Wires, register: Register, { from, pulse }: PathDelay): 'clock' | 'control' | 'other' {
  const clock = pinKey(wires, register.clock);
  const controls = register.asynchronous.map(({ control }) => pinKey(wires, control));
  const keys = from.map((bit) => pinKey(wires, bit));
  // What a pulse becomes is told of each output by itself.
  if (pulse !== null) return 'other';
  if (keys.every((key) => key === clock)) return 'clock';
  return keys.every((key) => controls.includes(key)) ? 'control' : 'other';
}

function directions(paths: readonly PathDelay[], inverted: boolean): Directions {
  const rise = spanOf(paths.map(({ delays }) => delays[0]));
  const fall = spanOf(paths.map(({ delays }) => delays[1]));
  return inverted ? { rise: fall, fall: rise } : { rise, fall };
}

/** The part of the delay that every output of a register has. */
function sharedDelay(ones: readonly Followed[]): { readonly clockToQ: Directions; readonly clear: Directions | null } {
  const clockToQ = leastDirections(ones.map((one) => one.clockToQ));
  const clears = ones.flatMap((one) => {
    if (one.clear === null) return [];
    const late = beyondDirections(one.clockToQ, clockToQ);
    return [beyondDirections(one.clear, late)];
  });
  return { clockToQ, clear: clears.length === 0 ? null : leastDirections(clears) };
}

function leastDirections(all: readonly Directions[]): Directions {
  return { rise: leastOf(all.map(({ rise }) => rise)), fall: leastOf(all.map(({ fall }) => fall)) };
}

function beyondDirections(whole: Directions, part: Directions): Directions {
  return { rise: beyond(whole.rise, part.rise), fall: beyond(whole.fall, part.fall) };
}

/** What an output has beyond its registers, in its own directions. */
function rest({ clockToQ, inverted, output, registers }: Followed, shared: RegisterDelays['registers']) {
  const parts = [...registers].flatMap((id) => shared.get(id)?.clockToQ ?? []);
  const { rise, fall } = beyondDirections(clockToQ, leastDirections(parts));
  if (isZero(rise) && isZero(fall)) return null;
  const own = inverted ? { rise: fall, fall: rise } : { rise, fall };
  const { place } = output.paths.flat()[0];
  return { ...own, toZ: leastOf([rise, fall]), place };
}
