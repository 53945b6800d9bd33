// How often single bits come and go: outputs, enables, whatever a person asks for. Of a register's bit what is proven of
// the register; of logic what one proven period shows, where all that it hears has one. Only settled levels count: what
// comes and goes within one instant is no period.

import { sourceBit } from '../netlist/trace';
import { bitKey } from '../netlist/bit-key';
import type { Bit, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Why } from '../clocks/network';
import type { DriveClock } from './drive';
import type { BitRate } from './prediction';
import type { Ratios } from './ratio';
import { registersHeardBy } from './ratio-groups';
import { fractionOf } from './ratio-fraction';
import {
  closeTally,
  createTally,
  dutyOf,
  exactHalves,
  ratioOf,
  type Tally,
  tallyLevel,
  tallyRepeat,
} from './ratio-tally';
import { createPurse, findCycle, type Purse, runFor } from './settled-cycle';
import { levelAt } from './settled-logic';
import { type Run, type RunContext, startRun } from './settled-run';

/** One for each bit, in their order. Yields after a fixed amount of work. */
export function* ratesOfBits(
  context: RunContext,
  bits: readonly Bit[],
  ratios: Ratios,
): Generator<void, readonly BitRate[]> {
  const purse = createPurse(context.limits);
  const known = new Map<number, BitRate>();
  for (const bit of bits) {
    const source = sourceBit(context.netlist.nodes, bit);
    const key = bitKey(source);
    if (!known.has(key)) known.set(key, yield* rateOf({ context, ratios, purse }, source));
  }
  return bits.map((bit) => known.get(bitKey(sourceBit(context.netlist.nodes, bit))) as BitRate);
}

interface RateContext {
  readonly context: RunContext;
  readonly ratios: Ratios;
  readonly purse: Purse;
}

function* rateOf(rates: RateContext, bit: Bit): Generator<void, BitRate> {
  const { netlist, drive } = rates.context;
  const op = netlist.nodes.op[bit.node];
  if (op === Op.register) return rateOfRegister(rates, netlist.nodes.aux[bit.node] as RegisterId, bit.bit);
  const clock = drive.clocks.find((driven) => bitKey(sourceBit(netlist.nodes, driven.bit)) === bitKey(bit));
  if (clock !== undefined) return rateOfClock(clock);
  if (op <= Op.hole) return unknownRate({ reason: 'rate-of-source', args: {} });
  return yield* rateOfLogic(rates, bit);
}

function rateOfRegister({ context, ratios }: RateContext, id: RegisterId, bit: number): BitRate {
  const found = ratios.registers.get(id);
  if (found === undefined) return unknownRate({ reason: 'rate-not-proven', args: {} });
  const index = context.netlist.registers[id].width - 1 - bit;
  const root = context.network.registers[id].root?.root ?? null;
  return rateFrom(found.ratios[index], found.duties[index], root);
}

function rateOfClock(clock: DriveClock): BitRate {
  const { high, whole } = exactHalves(clock);
  return { ratio: fractionOf(1, 1), duty: fractionOf(high, whole), root: clock.root, why: null };
}

function* rateOfLogic({ context, purse, ratios }: RateContext, bit: Bit): Generator<void, BitRate> {
  const { drive, limits, netlist, network } = context;
  const heard = registersHeardBy(netlist, [bit.node]);
  if (!heard.every((id) => ratios.registers.has(id))) return unknownRate({ reason: 'rate-not-proven', args: {} });
  // Logic of the clock and of held inputs alone hears no register: it can only follow the one clock that there is.
  const roots = new Set(heard.map((id) => network.registers[id].root?.root ?? null));
  const root = heard.length === 0 && drive.clocks.length === 1 ? drive.clocks[0].root : ([...roots][0] ?? null);
  const started = yield* startRun(context, [bit], root);
  if (started.kind === 'refused') return unknownRate(started.why);
  const run = started.value;
  run.held = [bit];
  const cycle = yield* findCycle(run, limits, purse, { afterEdge() {}, afterJump() {} });
  if (cycle === null) return unknownRate({ reason: 'rate-not-proven', args: {} });
  const tally = yield* tallyOf(run, bit, cycle.period);
  return rateFrom(ratioOf(tally, cycle.period), dutyOf(tally, cycle.period, run.clock, run.restLevel), root);
}

/** Once round the period. */
function* tallyOf(run: Run, { node, bit }: Bit, period: number): Generator<void, Tally> {
  const { plan, values } = run.machine;
  const levelNow = () => levelAt(plan, values, plan.positionOf[node], bit);
  const tally = createTally(levelNow());
  const last: [even: number, odd: number] = [tally.level, tally.level];
  let edge = 0;
  yield* runFor(run, period, {
    afterEdge() {
      last[edge % 2] = levelNow();
      tallyLevel(tally, edge, last[edge % 2]);
      edge += 1;
    },
    afterJump({ periods }) {
      tallyRepeat(tally, edge, periods, last);
      edge += 2 * periods;
    },
  });
  closeTally(tally, edge);
  return tally;
}

function rateFrom(ratio: BitRate['ratio'], duty: BitRate['duty'], root: number | null): BitRate {
  if (ratio === null || duty === null) return unknownRate({ reason: 'rate-of-still', args: {} });
  return { ratio, duty, root, why: null };
}

function unknownRate(why: Why): BitRate {
  return { ratio: null, duty: null, root: null, why };
}
