// Registers that do nothing but turn over at each active edge of a clock with evenly spaced edges: the root itself, or
// another such register. Their period is a power of two whatever else the netlist does, so nothing has to be run. Proven
// with every other register unknown: whatever they hold, the next value is the opposite and no control acts.

import type { Clock } from '../clocks/network';
import { type Bits, digitBits } from '../netlist/four-state';
import type { Register, RegisterId } from '../netlist/netlist';
import { driveAtRest } from './drive-moves';
import { rest, setState, suppose } from './settled';
import { beginUnderDrive, setReset } from './settled-drive';
import { activity, levelAt } from './settled-logic';
import { createMachine, filled, type SettledMachine } from './settled-machine';
import { planSettled } from './settled-plan';
import type { RunContext } from './settled-run';

export interface EvenToggle {
  /** The toggle whose output clocks it, null where the root does. */
  readonly clockedBy: RegisterId | null;
  /** The level of that output after the edge that it answers to; of the root, likewise. */
  readonly answersTo: 0 | 1;
  /** Root periods per period of its output are 2 to this power. */
  readonly power: number;
}

/** By register id; what is absent is no such toggle, or was not seen to be one. */
export function findEvenToggles(context: RunContext): ReadonlyMap<RegisterId, EvenToggle> {
  const { netlist, network } = context;
  const machine = unknownMachine(context);
  const found = new Map<RegisterId, EvenToggle>();
  const byStage = [...network.registers].sort(
    (left, right) => left.stage - right.stage || left.register - right.register,
  );
  for (const { register: id, clock, root } of byStage) {
    const register = netlist.registers[id];
    if (register.width !== 1 || root === null) continue;
    const source = evenSource(network.clocks[clock], found);
    if (source === null || !turnsOver(machine, register)) continue;
    const edge = register.edge === 'rising' ? 1 : 0;
    found.set(id, {
      clockedBy: source.register,
      answersTo: source.inverted ? flipped(edge) : edge,
      power: source.power + 1,
    });
  }
  return found;
}

function flipped(level: 0 | 1): 0 | 1 {
  return level === 1 ? 0 : 1;
}

/** Every register and latch unknown, inputs at rest, resets released. */
function unknownMachine({ netlist, drive, inputs }: RunContext): SettledMachine {
  const machine = createMachine(planSettled(netlist, 'all'));
  const unknown = {
    register: (id: number): Bits => filled(netlist.registers[id].width, 'x'),
    latch: (id: number): Bits => filled(netlist.latches[id].width, 'x'),
  };
  beginUnderDrive(machine, driveAtRest(drive), inputs, unknown);
  for (const reset of drive.resets) setReset(machine, reset, 'released');
  for (const { node, width } of [...netlist.registers, ...netlist.latches]) setState(machine, node, filled(width, 'x'));
  rest(machine);
  return machine;
}

/** What a clock's edges come from, where that is evenly spaced in both directions. */
function evenSource(
  { kind, sourceRegisters, from, root, stage }: Clock,
  found: ReadonlyMap<RegisterId, EvenToggle>,
): { readonly register: RegisterId | null; readonly inverted: boolean; readonly power: number } | null {
  if (root === null) return null;
  if (stage === 0 && (kind === 'root' || (kind === 'inverted' && from.length === 1))) {
    return { register: null, inverted: kind === 'inverted', power: 0 };
  }
  if (kind !== 'derived' || sourceRegisters.length !== 1) return null;
  const [{ register, inverted }] = sourceRegisters;
  const toggle = found.get(register);
  return toggle === undefined ? null : { register, inverted, power: toggle.power };
}

function turnsOver(machine: SettledMachine, register: Register): boolean {
  const { plan, values } = machine;
  const planned = plan.registers[plan.registerIndex[register.id]];
  const isFree = planned.asynchronous.every(
    ({ control, bit }, index) =>
      activity(levelAt(plan, values, control, bit), register.asynchronous[index].active) === 'no',
  );
  const next = (digit: '0' | '1' | 'x'): number => {
    suppose(machine, planned.position, digitBits(digit));
    return levelAt(plan, values, planned.data, 0);
  };
  const turns = isFree && next('0') === 1 && next('1') === 0;
  next('x');
  return turns;
}
