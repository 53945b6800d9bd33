// Two designs under the same inputs, at settled instants: before and after a cure. Names pair what belongs together. Where
// a register of the first samples what moves in the same instant, it takes what was there before, as registers that share
// one edge do; which of them did is remembered.

import { combinationalCone } from '../netlist/cone';
import type { Bit, RegisterId } from '../netlist/netlist';
import { topPorts } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { findBits } from '../explain/find-bits';
import { beginUnderDrive, inputNodesOf, setReset } from '../predict/settled-drive';
import { advance, readBit } from '../predict/settled';
import { createMachine, type SettledMachine } from '../predict/settled-machine';
import { planSettled } from '../predict/settled-plan';
import { startsOf } from '../predict/start';
import type { DesignFacts } from '../report/design-facts';

/** One bit in both designs. */
export interface Shared {
  readonly name: string;
  readonly bits: readonly [Bit, Bit];
}

export interface SharedInput extends Shared {
  /** It reaches a clock pin, an asynchronous control or a latch gate at once, so that its level is part of the state. */
  readonly isState: boolean;
  readonly resets: boolean;
  /** Where it stands at the start. */
  readonly restLevel: 0 | 1;
}

export interface Sides {
  readonly machines: readonly [SettledMachine, SettledMachine];
  /** Ports that are roots of clocks; all low at the start. */
  readonly clocks: readonly Shared[];
  readonly inputs: readonly SharedInput[];
  /** Registers of the first design that took the old value of another, by `from to`. */
  readonly sampledOld: ReadonlySet<string>;
}

/** Null where something is not followed: memories too large, modules that are not given, ports that go both ways. */
export function openSides(before: DesignFacts, after: DesignFacts, watched: readonly Shared[]): Sides | null {
  if (!isFollowed(before) || !isFollowed(after)) return null;
  const sampledOld = new Set<string>();
  const first = openMachine(before, bitsOn(watched, 0), (from, to) => {
    if (from !== null && from !== to) sampledOld.add(`${from} ${to}`);
  });
  const second = openMachine(after, bitsOn(watched, 1), () => {});
  const roots = new Set([...rootNames(before), ...rootNames(after)]);
  const inputs = topPorts(before.netlist).filter(({ port }) => port === 'input');
  const shared = sharedBits(
    before,
    after,
    inputs.map(({ name }) => name),
  );
  const pins = [pinCone(before), pinCone(after)];
  const resets = new Set(before.prediction.drive.resets.map(({ name }) => name));
  return {
    machines: [first, second],
    clocks: shared.filter(({ name }) => roots.has(name)),
    inputs: shared
      .filter(({ name }) => !roots.has(name))
      .map((input) => ({
        ...input,
        isState: input.bits.some(({ node }, side) => pins[side][node] === 1),
        resets: resets.has(input.name),
        restLevel: first.plan.positionOf[input.bits[0].node] >= 0 && readBit(first, input.bits[0]) === 1 ? 1 : 0,
      })),
    sampledOld,
  };
}

/** Bit by bit, of those names that both know with as many bits. */
export function sharedBits(before: DesignFacts, after: DesignFacts, names: readonly string[]): readonly Shared[] {
  return names.flatMap((name): Shared[] => {
    const [left, right] = [findBits(before.netlist, name) ?? [], findBits(after.netlist, name) ?? []];
    if (left.length !== right.length) return [];
    const bits = (index: number): [Bit, Bit] => [
      sourceBit(before.netlist.nodes, left[index].bit),
      sourceBit(after.netlist.nodes, right[index].bit),
    ];
    return left.map((one, index) => ({ name: one.name, bits: bits(index) }));
  });
}

function bitsOn(shared: readonly Shared[], side: 0 | 1): readonly Bit[] {
  return shared.map(({ bits }) => bits[side]);
}

function isFollowed({ netlist, network }: DesignFacts): boolean {
  const unfollowed: readonly number[] = [Op.memoryRead, Op.blackBox, Op.hole];
  return (
    !netlist.nodes.op.subarray(0, netlist.nodes.count).some((op) => unfollowed.includes(op)) &&
    network.roots.every(({ kind }) => kind === 'port' || kind === 'undriven') &&
    topPorts(netlist).every(({ port }) => port !== 'inout')
  );
}

function rootNames({ network }: DesignFacts): readonly string[] {
  return network.roots.filter(({ kind }) => kind === 'port').map(({ name }) => name);
}

/** What reaches a pin within one instant, by node. */
function pinCone({ netlist: { latches, nodes, registers } }: DesignFacts): Uint8Array {
  const controls = [...registers, ...latches].flatMap(({ asynchronous }) => asynchronous.map(({ control }) => control));
  const pins = [...registers.map(({ clock }) => clock), ...latches.map(({ gate }) => gate), ...controls];
  return combinationalCone(
    nodes,
    pins.map(({ node }) => node),
  );
}

/** At rest behind its resets, every clock low. */
function openMachine(
  { netlist, options, prediction: { drive } }: DesignFacts,
  watched: readonly Bit[],
  samplesOld: (from: RegisterId | null, to: RegisterId) => void,
): SettledMachine {
  const states = [...netlist.registers, ...netlist.latches].map(({ node }) => node);
  const plan = planSettled(netlist, [...states, ...watched.map(({ node }) => node)]);
  const machine = createMachine(plan, {
    order: (from, to) => {
      samplesOld(from, to);
      return 'old';
    },
  });
  const inputs = inputNodesOf(netlist);
  const clocks = drive.clocks.map((clock) => ({ ...clock, phase: Math.max(clock.phase, 1) }));
  beginUnderDrive(machine, { ...drive, clocks }, inputs, startsOf(netlist, drive, inputs, options.drive.start));
  for (const reset of drive.resets) setReset(machine, reset, 'released');
  advance(machine);
  return machine;
}
