// Everything that can be said in numbers before any waveform is drawn: when clocks arrive and outputs settle, what every
// register starts from, ratios, sequences and the rates of chains. Each number comes from a file of its own; here they
// are only put together. A number that is not proven is null, with the reason where the type has room for one.

import type { Limits } from '../budget';
import type { ClockNetwork } from '../clocks/network';
import type { ModuleCompiler } from '../cycles/compiled-module';
import type { DelaySet } from '../delays/delay-set';
import { spanningTriple } from '../delays/triple';
import type { Bit, Netlist, RegisterId } from '../netlist/netlist';
import { type Arrivals, createArrivals } from './arrival';
import { createLogicDelays } from './arrival-logic';
import { createTransferOrder } from './arrival-order';
import { ratesOfBits } from './bit-rates';
import { chainTimingOf } from './chain-timing';
import { countOf } from './counts';
import { countEntriesOf } from './counts-entry';
import type { CountContext } from './counts-run';
import { withNames } from './counts-names';
import { followTogether } from './counts-together';
import type { Drive } from './drive';
import { leastPeriodsOf } from './least-period';
import type { ChainTiming, Count, Prediction, RegisterTiming } from './prediction';
import { type Ratios, ratiosOfAll } from './ratio';
import { unknownTiming } from './ratio-survey';
import { createPurse } from './settled-cycle';
import { inputNodesOf } from './settled-drive';
import type { SettledPlan } from './settled-plan';
import type { RunContext } from './settled-run';
import { findMaximalShifts } from './settled-linear';
import { findEvenToggles } from './settled-toggles';
import { constantRegisters, reachEverything } from './start-constant';
import { type Starts, startsOf, startText } from './start';
import type { StartSetting } from './start-level';
import { registersStayingUnknown } from './start-unknown';

export interface PredictInput {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly drive: Drive;
  readonly delaySet: DelaySet;
  /** What registers hold that neither a reset nor the text gives a start value. */
  readonly start: StartSetting;
  readonly limits: Limits;
  /** Bits whose rate is asked for; none if not given. */
  readonly rated?: readonly Bit[];
  /** Where code may be made: for runs too long to be stepped. */
  readonly compile?: ModuleCompiler | null;
}

/** Yields after a fixed amount of work; the same input gives the same prediction. */
export function* predict(input: PredictInput): Generator<void, Prediction> {
  const { netlist, network, drive, delaySet } = input;
  const context = yield* countContextOf(input);
  const { arrivals, start: starts } = context;
  const reached = yield* reachEverything(netlist, starts);
  const constant = constantRegisters(netlist, reached, starts);
  const unknown = yield* stayingUnknown(context);
  const ratios = yield* ratiosOfAll(context, context);
  const registers = netlist.registers.map(({ id }) =>
    registerTiming(id, {
      arrivals,
      ratios,
      starts,
      constant: constant[id],
      canStayUnknown: unknown[id],
      width: netlist.registers[id].width,
    }),
  );
  const clocks = network.clocks.map(({ id }) => ratios.clocks.get(id) ?? unknownTiming(id));
  const rates = yield* ratesAskedFor(context, registers, { ratios, rated: input.rated ?? [] });
  const leastPeriods = yield* leastPeriodsOf({ ...context, clocks });
  return {
    drive,
    delaySet,
    registers,
    clocks,
    leastPeriods,
    ...(yield* countsAndChains(context, reached.plan)),
    ...rates,
  };
}

/** What all that is run or proven shares. */
export function* countContextOf(input: PredictInput): Generator<void, CountContext & { readonly start: Starts }> {
  const { netlist, network, drive, delaySet, limits } = input;
  const inputs = inputNodesOf(netlist);
  const arrivals = createArrivals(netlist, network, delaySet);
  const logic = createLogicDelays(netlist, delaySet);
  const start = startsOf(netlist, drive, inputs, input.start);
  const order = createTransferOrder({ netlist, network, delaySet, arrivals, logic });
  const runs = { netlist, network, drive, inputs, start, order, limits, compile: input.compile ?? null };
  const closed = { toggles: findEvenToggles(runs), shifts: yield* findMaximalShifts(runs) };
  return { ...runs, ...closed, delaySet, arrivals, logic, purse: createPurse(limits) };
}

/** Of what was asked for, and of every enable that is proven to come periodically. */
function* ratesAskedFor(
  context: RunContext,
  registers: readonly RegisterTiming[],
  { ratios, rated }: { readonly ratios: Ratios; readonly rated: readonly Bit[] },
): Generator<void, Pick<Prediction, 'rates' | 'enables'>> {
  const enabled = registers.filter(({ updateEvery }) => updateEvery !== null).map(({ register }) => register);
  const conditions = enabled.map((id) => ({ node: context.netlist.registers[id].enables[0].condition, bit: 0 }));
  const found = yield* ratesOfBits(context, [...rated, ...conditions], ratios);
  const byRegister = new Map(enabled.map((id, index) => [id, found[rated.length + index]]));
  return {
    rates: found.slice(0, rated.length),
    enables: registers.map(({ register }) => byRegister.get(register) ?? null),
  };
}

function* stayingUnknown({ netlist, drive, inputs }: CountContext): Generator<void, boolean[]> {
  const starts = startsOf(netlist, drive, inputs, 'x');
  return yield* registersStayingUnknown(netlist, drive, starts, yield* reachEverything(netlist, starts));
}

function* countsAndChains(
  context: CountContext,
  everything: SettledPlan,
): Generator<void, Pick<Prediction, 'counts' | 'chains'>> {
  const counts: Count[] = [];
  const chains: ChainTiming[] = [];
  const entries = countEntriesOf(context.netlist, context.network);
  const together = yield* followTogether(context, entries, everything);
  for (const entry of entries) {
    const result = yield* countOf(context, entry, together);
    counts.push(withNames(context.netlist, result.count));
    if (entry.chain !== null) chains.push(chainTimingOf(context, entry.chain, result));
  }
  return { counts, chains };
}

interface RegisterFacts {
  readonly arrivals: Arrivals;
  readonly ratios: Ratios;
  readonly starts: Starts;
  readonly constant: boolean;
  readonly canStayUnknown: boolean;
  readonly width: number;
}

function registerTiming(register: RegisterId, facts: RegisterFacts): RegisterTiming {
  const { arrivals, starts, constant, canStayUnknown } = facts;
  const found = facts.ratios.registers.get(register);
  const open = new Array<null>(facts.width).fill(null);
  return {
    register,
    arrival: arrivals.clockOf(register),
    settles: constant ? null : settlesOf(arrivals, register),
    ratios: found?.ratios ?? open,
    duties: found?.duties ?? open,
    updateEvery: found?.updateEvery ?? null,
    start: startText(starts.register(register)),
    startFrom: starts.from[register],
    constant,
    canStayUnknown,
  };
}

function settlesOf(arrivals: Arrivals, register: RegisterId): RegisterTiming['settles'] {
  const { rise, fall } = arrivals.outputOf(register);
  return rise === null || fall === null ? null : { rise, fall, all: spanningTriple(rise, fall) };
}
