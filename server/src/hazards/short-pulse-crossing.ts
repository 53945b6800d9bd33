// `short-pulse-crossing`: a single bit brought over behind flip-flops in a row, high or low for less than a receiving period,
// so that an edge may come before it and the next one after it. Certain where both periods are stated or told by a test
// bench; possible where they are assumed and it is a pulse of one sending period. How long the bit stands is known only
// where it is an edge detector's output, or runs by itself and repeats.

import type { Crossing } from '../clocks/network';
import { cone } from '../netlist/cone';
import type { Bit, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBitPastBuffers } from '../netlist/trace';
import type { DriveClock } from '../predict/drive';
import type { Fraction } from '../predict/prediction';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { sourcePlaces } from './crossing-subject';
import { instancePath, registerName } from './subjects';

export const shortPulseCrossing: FindingRule = {
  id: 'short-pulse-crossing',
  find: (context) => context.network.crossings.flatMap((crossing) => findOne(context, crossing) ?? []),
};

function findOne(context: HazardContext, crossing: Crossing): RawFinding | null {
  const { source, status } = crossing;
  if (source === null || status !== 'protected' || context.netlist.nodes.op[source.node] !== Op.register) return null;
  const sender = context.netlist.registers[context.netlist.nodes.aux[source.node]];
  const pulse = shortestPulse(context, sender, source.bit);
  const [sending, receiving] = [sender, context.netlist.registers[crossing.to]].map((register) =>
    clockOf(context, register),
  );
  if (pulse === null || sending === null || receiving === null) return null;
  const isKnown = isStated(sending.root) && isStated(receiving.root);
  const widthPs = pulse.periods * sending.periodPs;
  const { hold, setup } = context.prediction.delaySet;
  const neededPs = receiving.periodPs + (setup?.max ?? 0) + (hold?.max ?? 0);
  if (isKnown ? widthPs >= neededPs : !pulse.isOnePeriod) return null;
  return findingOf(context, crossing, { widthPs, neededPs, isKnown, sending, receiving });
}

interface Pulse {
  /** Of the sender's clock. */
  readonly periods: number;
  /** A pulse of one sending period, and not a bit that turns over at every edge. */
  readonly isOnePeriod: boolean;
}

function shortestPulse(context: HazardContext, sender: Register, bit: number): Pulse | null {
  if (isEdgeDetector(context, sender, bit)) return { periods: 1, isOnePeriod: true };
  if (!runsByItself(context, sender)) return null;
  const { duties, ratios } = context.prediction.registers[sender.id];
  const index = sender.width - 1 - bit;
  const [duty, ratio] = [duties[index], ratios[index]];
  const clock = context.prediction.clocks[context.network.registers[sender.id].clock];
  if (duty === null || ratio === null || clock.ratio === null) return null;
  // In periods of the root; a bit that is high for so long in each of its periods has no longer pulse than that.
  const high = toNumber(duty) * toNumber(ratio);
  const low = toNumber(ratio) - high;
  const periods = Math.min(high, low) / toNumber(clock.ratio);
  return { periods, isOnePeriod: periods === 1 && high !== low };
}

/** `d & ~q` or `~d & q`, where q samples d: high for one period at each edge of d, whatever d does. */
function isEdgeDetector({ netlist }: HazardContext, sender: Register, bit: number): boolean {
  const { nodes } = netlist;
  const gate = sourceBitPastBuffers(nodes, { node: sender.data, bit });
  if (nodes.op[gate.node] !== Op.and) return false;
  const inputs = operandsOfBit(nodes, gate).map((input) => peeled(netlist, input));
  return (
    inputs.length === 2 &&
    inputs[0].isInverted !== inputs[1].isInverted &&
    inputs.some(({ bit: delayed }, index) => samples(netlist, sender, delayed, inputs[1 - index].bit))
  );
}

function peeled({ nodes }: HazardContext['netlist'], input: Bit): { readonly bit: Bit; readonly isInverted: boolean } {
  let bit = sourceBitPastBuffers(nodes, input);
  let isInverted = false;
  for (let steps = 0; nodes.op[bit.node] === Op.not && steps < nodes.count; steps++) {
    bit = sourceBitPastBuffers(nodes, { node: nodes.pool[nodes.first[bit.node]] as NodeId, bit: bit.bit });
    isInverted = !isInverted;
  }
  return { bit, isInverted };
}

/** Whether `delayed` is a register bit of the sender's clock whose data is `original`. */
function samples(netlist: HazardContext['netlist'], sender: Register, delayed: Bit, original: Bit): boolean {
  const { nodes, registers } = netlist;
  if (nodes.op[delayed.node] !== Op.register) return false;
  const register = registers[nodes.aux[delayed.node]];
  const data = sourceBitPastBuffers(nodes, { node: register.data, bit: delayed.bit });
  const isOneClock =
    register.edge === sender.edge &&
    sourceBitPastBuffers(nodes, register.clock).node === sourceBitPastBuffers(nodes, sender.clock).node;
  return isOneClock && data.node === original.node && data.bit === original.bit;
}

/** Whether no input but clocks and resets has a say in what the register does. */
function runsByItself({ netlist, prediction }: HazardContext, { node }: Register): boolean {
  const { nodes } = netlist;
  const marks = cone(netlist, [node]);
  const driven = new Set(
    [...prediction.drive.clocks, ...prediction.drive.resets].map(({ bit }) => sourceBitPastBuffers(nodes, bit).node),
  );
  for (let other = 0; other < nodes.count; other++) {
    const isOutside = nodes.op[other] === Op.input || nodes.op[other] === Op.blackBox;
    if (marks[other] === 1 && isOutside && !driven.has(other as NodeId)) return false;
  }
  return true;
}

interface ClockOfRegister {
  readonly root: DriveClock;
  readonly periodPs: number;
}

function clockOf({ network, prediction }: HazardContext, { id }: Register): ClockOfRegister | null {
  const { clock, root } = network.registers[id];
  const drive = prediction.drive.clocks.find((entry) => entry.root === root?.root);
  const { hertz } = prediction.clocks[clock];
  return drive === undefined || hertz === null ? null : { root: drive, periodPs: 1e12 / hertz };
}

function isStated({ source }: DriveClock): boolean {
  return source === 'given' || source === 'text';
}

function toNumber({ denominator, numerator }: Fraction): number {
  return Number(numerator) / Number(denominator);
}

interface Measured {
  readonly widthPs: number;
  readonly neededPs: number;
  readonly isKnown: boolean;
  readonly sending: ClockOfRegister;
  readonly receiving: ClockOfRegister;
}

function findingOf(context: HazardContext, crossing: Crossing, measured: Measured): RawFinding {
  const { netlist } = context;
  const to = netlist.registers[crossing.to];
  const [from] = crossing.from;
  return {
    id: 'short-pulse-crossing',
    certainty: measured.isKnown ? 'certain' : 'possible',
    signals: [registerName(netlist, to.id), from.name],
    instance: instancePath(netlist, to.instance),
    place: crossing.place,
    related: sourcePlaces(context, [crossing]),
    facts: {
      to: registerName(netlist, to.id),
      from: from.name,
      fromDomain: context.network.domains[crossing.fromDomain].name,
      toDomain: context.network.domains[crossing.toDomain].name,
      widthPs: measured.widthPs,
      neededPs: measured.neededPs,
      sendingPeriodPs: measured.sending.periodPs,
      receivingPeriodPs: measured.receiving.periodPs,
    },
    weight: {},
  };
}
