// `mtbfLog10Seconds` of a crossing: from what the delay set states of its first flip-flop, the clock that samples, and how
// often the source changes. Every flip-flop after the first gives one receiving period to settle, less its clock-to-output
// and its setup. Null for a single flip-flop (what it feeds decides how long it has), for a port (how often it changes is
// not known), and where τ and T0 are not stated.

import type { Crossing } from '../clocks/network';
import { setOfRegister } from '../delays/own-delays';
import { clockToQOf } from '../delays/stage-delays';
import type { Register, RegisterId } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import { mtbfLog10Seconds } from '../predict/metastability';
import type { Fraction } from '../predict/prediction';
import { rootHertz } from '../predict/ratio-survey';
import type { DesignFacts } from './design-facts';

export function crossingMtbf(facts: DesignFacts, { bits, depth, from, to }: Crossing): number | null {
  const set = setOfRegister(facts.prediction.delaySet, to);
  const { setup, tau, window } = set;
  const clockHertz = facts.prediction.clocks[facts.network.registers[to].clock].hertz;
  const changes = changesOf(facts, { bits, from });
  if (depth < 2 || tau === null || window === null || clockHertz === null || changes === null) return null;
  if (!isOnOneEdge(facts, to, depth)) return null;
  const output = clockToQOf(set, facts.network.registers[to].stage);
  const taken = Math.max(output.rise.max, output.fall.max) + (setup?.max ?? 0);
  return mtbfLog10Seconds({
    resolution: (depth - 1) * (1 / clockHertz - taken * secondsPerPs),
    tau: tau.max * secondsPerPs,
    window: window.max * secondsPerPs,
    clockHertz,
    changesPerSecond: changes,
  });
}

const secondsPerPs = 1e-12;

/**
 * Failures of several synchronizers add, so the changes of all bits do. Which of a register's bits cross is not told: as
 * many as cross, the fastest ones.
 */
function changesOf(facts: DesignFacts, { bits, from }: Pick<Crossing, 'bits' | 'from'>): number | null {
  let sum = 0;
  for (const { register } of from) {
    const changes = register === null ? null : changesPerSecond(facts, register);
    if (changes === null) return null;
    const fastest = [...changes].sort((left, right) => right - left).slice(0, from.length === 1 ? bits : undefined);
    for (const perSecond of fastest) sum += perSecond;
  }
  return sum;
}

/** Of each bit: twice in each of its periods where that is proven, else at most once in each period of its root. */
function changesPerSecond({ network, prediction }: DesignFacts, register: RegisterId): readonly number[] | null {
  const clock = prediction.drive.clocks.find(({ root }) => root === network.registers[register].root?.root);
  if (clock === undefined) return null;
  const hertz = rootHertz(clock);
  return prediction.registers[register].ratios.map((ratio) => (2 * hertz) / (ratio === null ? 2 : toNumber(ratio)));
}

function toNumber({ denominator, numerator }: Fraction): number {
  return Number(numerator) / Number(denominator);
}

/** Whether all flip-flops of the row act on one edge of one clock: else they have less than a period. */
function isOnOneEdge({ netlist, network }: DesignFacts, first: RegisterId, depth: number): boolean {
  const { registers, nodes } = netlist;
  const reads = (reader: Register, read: RegisterId) =>
    sourceBit(nodes, { node: reader.data, bit: 0 }).node === registers[read].node && reader.id !== read;
  let row: readonly RegisterId[] = [first];
  for (let stage = 1; stage < depth; stage++) {
    row = registers.filter((reader) => row.some((read) => reads(reader, read))).map(({ id }) => id);
    const isSame = (id: RegisterId) =>
      network.registers[id].clock === network.registers[first].clock && registers[id].edge === registers[first].edge;
    if (row.length === 0 || !row.every(isSame)) return false;
  }
  return true;
}
