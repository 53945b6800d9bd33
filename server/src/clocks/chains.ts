// Definition 10: every maximal path of two or more registers clocked one by the other whose members all toggle or
// count. Branches are chains of their own with a shared beginning.

import type { RegisterId } from '../netlist/netlist';
import { type Context, sourceOf } from './context';
import type { MemoWalk } from './memo-walk';
import type { Chain, RegisterClocking } from './network';
import { comparePlaces } from './network';
import type { Pace } from './pace';
import type { ClockWalk } from './clock-walk';

/** Which bit of which register clocks a register, where there is exactly one. */
interface Link {
  readonly register: RegisterId;
  readonly bit: number;
}

export function* findChains(
  context: Context,
  walk: MemoWalk<ClockWalk>,
  registers: readonly RegisterClocking[],
  pace: Pace,
): Generator<void, Chain[]> {
  const links: (Link | null)[] = [];
  const followers = new Map<RegisterId, RegisterId[]>();
  for (const clocking of registers) {
    const link = linkOf(context, walk, clocking, registers);
    links.push(link);
    if (link !== null) follow(followers, link.register, clocking.register);
    if (pace.spend(2)) yield;
  }
  const chains: Chain[] = [];
  for (const { register } of registers) {
    if (links[register] !== null || !followers.has(register)) continue;
    for (const path of pathsFrom(register, followers)) {
      chains.push(chainOf(context, registers, links, path));
      if (pace.spend(path.length)) yield;
    }
  }
  return chains.sort(compareChains);
}

function follow(followers: Map<RegisterId, RegisterId[]>, first: RegisterId, next: RegisterId): void {
  const known = followers.get(first);
  if (known === undefined) followers.set(first, [next]);
  else known.push(next);
}

function linkOf(
  context: Context,
  walk: MemoWalk<ClockWalk>,
  { register, selfDriven }: RegisterClocking,
  registers: readonly RegisterClocking[],
): Link | null {
  const clock = walk(sourceOf(context, context.netlist.registers[register].clock));
  if (!selfDriven || clock.isOpen || clock.sources.length !== 1) return null;
  const [source] = clock.sources;
  return registers[source.register].selfDriven ? { register: source.register, bit: source.bit } : null;
}

/** Every way from a register down to one that clocks nothing. A link has one source, so there is no way round. */
function pathsFrom(head: RegisterId, followers: ReadonlyMap<RegisterId, readonly RegisterId[]>): RegisterId[][] {
  const paths: RegisterId[][] = [];
  const path: RegisterId[] = [];
  const waiting: { register: RegisterId; depth: number }[] = [{ register: head, depth: 0 }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    path.length = next.depth;
    path.push(next.register);
    const after = followers.get(next.register) ?? [];
    if (after.length === 0) paths.push([...path]);
    for (const register of [...after].reverse()) waiting.push({ register, depth: path.length });
  }
  return paths;
}

function chainOf(
  context: Context,
  registers: readonly RegisterClocking[],
  links: readonly (Link | null)[],
  path: readonly RegisterId[],
): Chain {
  const last = path[path.length - 1];
  const [head] = path;
  return {
    root: registers[head].root?.root ?? null,
    registers: path,
    clockBits: [
      ...path.slice(1).map((register) => links[register]?.bit ?? 0),
      context.netlist.registers[last].width - 1,
    ],
    place: context.netlist.registers[head].place,
  };
}

function compareChains(left: Chain, right: Chain): number {
  const byPlace = comparePlaces(left.place, right.place);
  if (byPlace !== 0) return byPlace;
  const differs = left.registers.findIndex((register, index) => register !== right.registers[index]);
  return differs < 0 ? 0 : left.registers[differs] - (right.registers[differs] ?? -1);
}
