// What `gated-clock` and `switched-clock` share: a gate or multiplexer stands in a clock path (definition 9). Sound ones
// are information; a tied control is a fact of the report and no finding, and so is what only opens latches: a decode
// that pulses there is `glitch-into-latch`, a latch nobody meant is `unintended-latch`.

import type { Clock, ClockId, GateFacts } from '../clocks/network';
import type { HazardContext, RawFinding } from './context';
import type { Certainty } from './finding';
import { clockedBy, clocksHere, instancePath, registerName, rootName } from './subjects';

export function findGates(context: HazardContext, kind: 'gated' | 'switched'): readonly RawFinding[] {
  const clocking = clocksOfRegisters(context);
  return context.network.clocks.flatMap((clock) =>
    clock.kind === kind && clock.gate !== null && clock.gate.verdict !== 'strapped' && clocking.has(clock.id)
      ? [findOne(context, clock, clock.gate)]
      : [],
  );
}

/** Clocks of registers, and what those are made from. */
function clocksOfRegisters({ network }: HazardContext): ReadonlySet<ClockId> {
  const found = new Set<ClockId>();
  const waiting = network.registers.map(({ clock }) => clock);
  for (let clock = waiting.pop(); clock !== undefined; clock = waiting.pop()) {
    if (found.has(clock)) continue;
    found.add(clock);
    waiting.push(...network.clocks[clock].from);
  }
  return found;
}

function findOne(context: HazardContext, clock: Clock, gate: GateFacts): RawFinding {
  const { netlist, network } = context;
  const clocked = clockedBy(context, clock.id);
  return {
    id: clock.kind === 'gated' ? 'gated-clock' : 'switched-clock',
    certainty: certaintyOf(context, clock, gate),
    signals: [clock.name, ...clocked.map(({ id }) => registerName(netlist, id))],
    instance: clocked.length === 0 ? '' : instancePath(netlist, clocked[0].instance),
    place: clock.place,
    related: [{ place: gate.place, why: gate.why }, ...clocksHere(netlist, clock, clocked)],
    facts: {
      clock: clock.name,
      root: rootName(network, clock),
      from: [...gate.clockNames],
      controls: gate.controls.map(({ name }) => name),
      verdict: gate.verdict,
      reason: gate.why.reason,
      registers: clocked.length,
      ...phaseFacts(context, clock, gate),
    },
    weight: { sound: gate.verdict === 'sound' },
  };
}

function phaseFacts(context: HazardContext, clock: Clock, gate: GateFacts): Record<string, number | null> {
  return { controlDelayMaxPs: latestControl(context, gate), passingPs: passingTime(context, clock, gate) };
}

/**
 * Definition 9: an unsound gate cuts or makes a pulse for certain while the control moves before the passing half is
 * over; later than that it only moves in the next blocking half, and the verdict is possible.
 */
function certaintyOf(context: HazardContext, clock: Clock, gate: GateFacts): Certainty | null {
  if (gate.verdict === 'possible') return 'possible';
  if (gate.verdict !== 'unsound') return null;
  const passing = passingTime(context, clock, gate);
  const latest = latestControl(context, gate);
  return passing !== null && latest !== null && latest < passing ? 'certain' : 'possible';
}

/**
 * How long the clock operand lets the control through in each period of its root, ps; the blocking level is that of the
 * operand, which is turned against the root where it rises on the root's falling edge.
 */
function passingTime({ network, prediction }: HazardContext, clock: Clock, gate: GateFacts): number | null {
  const drive = prediction.drive.clocks.find(({ root }) => root === clock.root);
  if (drive === undefined || gate.blockingLevel === null) return null;
  const operand = network.clocks.find(({ name }) => name === gate.clockNames[0]);
  const passesWhileHigh = (gate.blockingLevel === 0) !== (operand?.risesOn === 'falling');
  return passesWhileHigh ? drive.high : drive.period - drive.high;
}

/** When the last launching register has moved, ps after its own root edge. */
function latestControl({ prediction }: HazardContext, gate: GateFacts): number | null {
  const settled = gate.controls.flatMap(({ launchRegisters }) =>
    launchRegisters.map((register) => prediction.registers[register].settles?.all.max ?? null),
  );
  return settled.length === 0 || settled.includes(null) ? null : Math.max(...settled.map(Number));
}
