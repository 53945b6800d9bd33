// Which registers can stay unknown for ever (definition 17): a run from x through reset and release with inputs free
// finds the bits that are never known; of these only those stay whose next value can hang on an unknown start again and
// again. A register that only takes over an unknown input is not meant: after one edge its value is the input's.

import { type Bits, fromLimbs, ones, zero, zeroPlane } from '../netlist/four-state';
import { type Bit, type Netlist, type NodeId, withOwnContents } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Drive } from './drive';
import { createClockEdges } from './drive-edges';
import { advance, begin, rest, type StartValues } from './settled';
import { setClock, setReset, tick } from './settled-drive';
import { levelAt } from './settled-logic';
import { createMachine, sameBits, type SettledMachine } from './settled-machine';
import { planSettled, type SettledPlan } from './settled-plan';
import { intersection, shrinkTaint, spreadTaint } from './start-taint';

/** Rounds of all clocks after release, and evaluations in all: what is not known by then is asked the second question. */
const rounds = 64;
const mostWork = 4_000_000;

/**
 * Per register id. `start`: where what the text leaves open is x. `reached`: what can be reached from there, see
 * `reachEverything`.
 */
export function* registersStayingUnknown(
  netlist: Netlist,
  drive: Drive,
  start: StartValues,
  reached: SettledMachine,
): Generator<void, boolean[]> {
  const staying = yield* settleTaint(reached, yield* neverKnown(netlist, drive, start));
  return netlist.registers.map(({ node }) => isAny(staying.get(reached.plan.positionOf[node])));
}

/** State bits, by position, that no instant of the run knew. */
function* neverKnown(netlist: Netlist, drive: Drive, start: StartValues): Generator<void, Map<number, Bits>> {
  const machine = createMachine(planSettled(withOwnContents(netlist), 'all'));
  begin(machine, start);
  for (const clock of drive.clocks) setClock(machine, clock, createClockEdges(clock).startLevel);
  for (const reset of drive.resets) setReset(machine, reset, 'active');
  rest(machine);
  const never = new Map(statePositions(machine).map((position) => [position, unknownAt(machine, position)]));
  const resetRounds = Math.max(0, ...drive.resets.map(({ periods }) => periods));
  const isOver = (round: number) => round >= resetRounds + rounds || (round > resetRounds && machine.work > mostWork);
  for (let round = 0; !isOver(round) && [...never.values()].some(isAny); round++) {
    if (round === resetRounds) releaseAll(machine, drive);
    tickAll(machine, drive);
    for (const [position, bits] of never) {
      never.set(position, intersection(bits, unknownAt(machine, position)));
    }
    yield;
  }
  return never;
}

function releaseAll(machine: SettledMachine, drive: Drive): void {
  for (const reset of drive.resets) setReset(machine, reset, 'released');
  advance(machine);
}

/** Both edges of every clock, one after the other: which comes first makes no difference to what can be known. */
function tickAll(machine: SettledMachine, drive: Drive): void {
  for (const clock of drive.clocks) {
    const level = createClockEdges(clock).startLevel;
    tick(machine, clock, level === 1 ? 0 : 1);
    tick(machine, clock, level);
  }
}

/** The state bits that go on hanging on each other: dropped, one after the other, is what does not. */
function* settleTaint(machine: SettledMachine, never: Map<number, Bits>): Generator<void, ReadonlyMap<number, Bits>> {
  const staying = new Map(never);
  const taint = spreadTaint(machine, staying);
  for (let asked: Iterable<number> = [...staying.keys()]; ; ) {
    const changed: number[] = [];
    for (const position of asked) {
      const bits = staying.get(position) as Bits;
      const next = intersection(bits, nextTaint(machine, taint, position));
      if (sameBits(bits, next)) continue;
      staying.set(position, next);
      changed.push(position);
    }
    if (changed.length === 0) return staying;
    for (const position of changed) taint[position] = staying.get(position) as Bits;
    asked = shrinkTaint(machine, taint, changed);
    yield;
  }
}

/** What a register or latch keeps unknown at its next chance: all of it where that never comes or is itself in doubt. */
function nextTaint({ plan, values }: SettledMachine, taint: readonly Bits[], position: number): Bits {
  const { data, pin } = inputsOf(plan, position);
  const pinPosition = plan.positionOf[pin.node];
  const isStill = levelAt(plan, values, pinPosition, pin.bit) < 2;
  const isDoubtful = ((taint[pinPosition].a[pin.bit >>> 5] >>> (pin.bit & 31)) & 1) === 1;
  return isStill || isDoubtful ? taint[position] : taint[plan.positionOf[data]];
}

function inputsOf({ netlist, op, aux }: SettledPlan, position: number): { readonly data: NodeId; readonly pin: Bit } {
  if (op[position] === Op.latch)
    return { data: netlist.latches[aux[position]].data, pin: netlist.latches[aux[position]].gate };
  return { data: netlist.registers[aux[position]].data, pin: netlist.registers[aux[position]].clock };
}

function statePositions({ plan }: SettledMachine): number[] {
  const latches = plan.latches.map(({ node }) => plan.positionOf[node]);
  return [...plan.registers.map(({ position }) => position), ...latches];
}

/** As ones; of a memory's content all, while some word is unknown. */
function unknownAt({ plan, values }: SettledMachine, position: number): Bits {
  const view = values.views[position];
  const contents = plan.contents[position];
  if (contents !== undefined) return contents.isOpen(view) ? ones(view.width) : zero(view.width);
  return fromLimbs(view.width, view.b.slice(), zeroPlane(view.b.length));
}

function isAny(bits: Bits | undefined): boolean {
  return bits?.a.some((limb) => limb !== 0) ?? false;
}
