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
import { type Cycle, findCycle, type Purse, runFor } from './settled-cycle';
import { createLongPurse, type LongPurse, type LongTour, tourLong } from './long-of-run';
import { levelAt } from './settled-logic';
import { type Run, type RunContext, startRun } from './settled-run';

/** One for each bit, in their order. Yields after a fixed amount of work. */
export function* ratesOfBits(
  context: RunContext,
  bits: readonly Bit[],
  ratios: Ratios,
): Generator<void, readonly BitRate[]> {
  const { nodes } = context.netlist;
  const rates = {
    context,
    ratios,
    purse: { left: context.limits.period * workPerPeriod },
    longPurse: createLongPurse(),
  };
  const known = new Map<number, BitRate>();
  const groups = new Map<string, LogicGroup>();
  for (const bit of bits.map((one) => sourceBit(nodes, one))) {
    if (known.has(bitKey(bit))) continue;
    const rate = rateAtOnce(rates, bit);
    known.set(bitKey(bit), rate ?? unproven);
    if (rate === null) addToGroup(context, groups, bit);
  }
  for (const group of groups.values()) {
    const found = yield* ratesOfGroup(rates, group);
    for (const [index, bit] of group.bits.entries()) known.set(bitKey(bit), found[index]);
  }
  return bits.map((bit) => known.get(bitKey(sourceBit(nodes, bit))) ?? unproven);
}

/** Evaluations for all rates together, per root period of the limit: far less than sequences get, of which these follow. */
const workPerPeriod = 64;

interface RateContext {
  readonly context: RunContext;
  readonly ratios: Ratios;
  readonly purse: Purse;
  readonly longPurse: LongPurse;
}

/** Bits of logic that hear the same registers: one run tells of all. */
interface LogicGroup {
  readonly heard: readonly RegisterId[];
  readonly bits: Bit[];
}

function addToGroup({ netlist }: RunContext, groups: Map<string, LogicGroup>, bit: Bit): void {
  const heard = registersHeardBy(netlist, [bit.node]);
  const key = heard.join(' ');
  const group = groups.get(key) ?? { heard, bits: [] };
  group.bits.push(bit);
  groups.set(key, group);
}

/** Null for logic, which takes a run. */
function rateAtOnce(rates: RateContext, bit: Bit): BitRate | null {
  const { netlist, drive } = rates.context;
  const op = netlist.nodes.op[bit.node];
  if (op === Op.register) return rateOfRegister(rates, netlist.nodes.aux[bit.node] as RegisterId, bit.bit);
  const clock = drive.clocks.find((driven) => bitKey(sourceBit(netlist.nodes, driven.bit)) === bitKey(bit));
  if (clock !== undefined) return rateOfClock(clock);
  return op <= Op.hole ? unknownRate({ reason: 'rate-of-source', args: {} }) : null;
}

function rateOfRegister({ context, ratios }: RateContext, id: RegisterId, bit: number): BitRate {
  const found = ratios.registers.get(id);
  if (found === undefined) return unproven;
  const index = context.netlist.registers[id].width - 1 - bit;
  const root = context.network.registers[id].root?.root ?? null;
  return rateFrom(found.ratios[index], found.duties[index], root);
}

function rateOfClock(clock: DriveClock): BitRate {
  const { high, whole } = exactHalves(clock);
  return { ratio: fractionOf(1, 1), duty: fractionOf(high, whole), root: clock.root, why: null };
}

function* ratesOfGroup(
  { context, longPurse, purse, ratios }: RateContext,
  { bits, heard }: LogicGroup,
): Generator<void, readonly BitRate[]> {
  const { drive, limits, network } = context;
  const all = (rate: BitRate) => bits.map(() => rate);
  if (purse.left <= 0 || !heard.every((id) => ratios.registers.has(id))) return all(unproven);
  // Logic of the clock and of held inputs alone hears no register: it can only follow the one clock that there is.
  const roots = new Set(heard.map((id) => network.registers[id].root?.root ?? null));
  const root = heard.length === 0 && drive.clocks.length === 1 ? drive.clocks[0].root : ([...roots][0] ?? null);
  const started = yield* startRun(context, bits, root);
  if (started.kind === 'refused') return all(unknownRate(started.why));
  const run = started.value;
  run.held = bits;
  const cycle = yield* findCycle(run, limits, purse, { afterEdge() {}, afterJump() {} });
  const found =
    cycle === null ? yield* longRates(context, run, bits, longPurse) : yield* steppedRates(run, bits, cycle);
  if (cycle !== null) purse.left -= run.machine.work;
  if (found === null) return all(unproven);
  const { clock, restLevel } = run;
  return found.tallies.map((tally) =>
    rateFrom(ratioOf(tally, found.period), dutyOf(tally, found.period, clock, restLevel), root),
  );
}

function* steppedRates(run: Run, bits: readonly Bit[], { period }: Cycle): Generator<void, LongTour> {
  return { period, tallies: yield* talliesOf(run, bits, period) };
}

function* longRates(
  { compile, limits }: RunContext,
  run: Run,
  bits: readonly Bit[],
  purse: LongPurse,
): Generator<void, LongTour | null> {
  return yield* tourLong(run, { bits, clocks: [] }, { compile, limit: limits.cycles, purse });
}

interface BitTally {
  readonly tally: Tally;
  readonly levelNow: () => number;
  /** Levels after the two edges of the period looked at last. */
  readonly last: [even: number, odd: number];
}

/** Once round the period. */
function* talliesOf(run: Run, bits: readonly Bit[], period: number): Generator<void, readonly Tally[]> {
  const { plan, values } = run.machine;
  const looked = bits.map(({ bit, node }): BitTally => {
    const levelNow = () => levelAt(plan, values, plan.positionOf[node], bit);
    return { tally: createTally(levelNow()), levelNow, last: [levelNow(), levelNow()] };
  });
  let edge = 0;
  yield* runFor(run, period, {
    afterEdge() {
      for (const { last, levelNow, tally } of looked) {
        last[edge % 2] = levelNow();
        tallyLevel(tally, edge, last[edge % 2]);
      }
      edge += 1;
    },
    afterJump({ periods }) {
      for (const { last, tally } of looked) tallyRepeat(tally, edge, periods, last);
      edge += 2 * periods;
    },
  });
  for (const { tally } of looked) closeTally(tally, edge);
  return looked.map(({ tally }) => tally);
}

function rateFrom(ratio: BitRate['ratio'], duty: BitRate['duty'], root: number | null): BitRate {
  if (ratio === null || duty === null) return unknownRate({ reason: 'rate-of-still', args: {} });
  return { ratio, duty, root, why: null };
}

function unknownRate(why: Why): BitRate {
  return { ratio: null, duty: null, root: null, why };
}

const unproven: BitRate = unknownRate({ reason: 'rate-not-proven', args: {} });
