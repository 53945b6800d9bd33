// What tests of prediction share: a hand-built netlist, its clocks found, its drive assumed or given, predicted.

import { type Limits, limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import type { ModuleCompiler } from '../../server/src/cycles/compiled-module';
import type { ClockNetwork, ClockOptions } from '../../server/src/clocks/network';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { tripleOf, zeroDelay } from '../../server/src/delays/triple';
import type { Netlist, RegisterId } from '../../server/src/netlist/netlist';
import type { DriveOptions } from '../../server/src/predict/drive';
import { driveOf } from '../../server/src/predict/drive-of';
import { predict } from '../../server/src/predict/predict';
import type { ClockTiming, Count, Fraction, Prediction, RegisterTiming } from '../../server/src/predict/prediction';
import type { Circuit, Wire } from '../tools/circuit';

export interface PredictOptions {
  readonly delaySet?: DelaySet;
  readonly start?: '0' | '1' | 'x';
  readonly limits?: Partial<Limits>;
  readonly drive?: Partial<DriveOptions>;
  readonly clocks?: Partial<ClockOptions>;
  /** Null, or not given: long runs are stepped. */
  readonly compile?: ModuleCompiler | null;
}

export interface Predicted {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly prediction: Prediction;
  register(name: string): RegisterTiming;
  clock(name: string): ClockTiming;
  /** The count whose first-listed register belongs to this signal; by default the only one. */
  count(name?: string): Count;
}

export function predictionOf(netlist: Netlist, options: PredictOptions = {}): Predicted {
  const clockOptions = { clockOperands: {}, related: [], cells: {}, static: [], ...options.clocks };
  const network = finished(findClocks(netlist, clockOptions));
  const start = options.start ?? '0';
  const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start, ...options.drive });
  const limits = { ...limitDefaults, ...options.limits };
  const delaySet = options.delaySet ?? (builtInDelaySet('unit') as DelaySet);
  const prediction = finished(
    predict({ netlist, network, drive, delaySet, start, limits, compile: options.compile ?? null }),
  );
  const nameOf = (id: RegisterId) => netlist.signals[netlist.registers[id].signal].name;
  return {
    netlist,
    network,
    prediction,
    register: (name) =>
      only(
        prediction.registers.filter(({ register }) => nameOf(register) === name),
        name,
      ),
    clock: (name) =>
      only(
        prediction.clocks.filter(({ clock }) => network.clocks[clock].name === name),
        name,
      ),
    count: (name) => {
      const isNamed = ({ registers }: Count) => name === undefined || registers.some((id) => nameOf(id) === name);
      return only(prediction.counts.filter(isNamed), name ?? 'count');
    },
  };
}

export function finished<Value>(steps: Generator<void, Value>): Value {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

export function fractionText(fraction: Fraction | null): string {
  return fraction === null ? 'none' : `${fraction.numerator}/${fraction.denominator}`;
}

/** A delay set of flip-flops alone: one number for everything, or per direction. ps. */
export function flipFlops(first: DelaySet['clockToQ']['first'] | number, more: Partial<DelaySet> = {}): DelaySet {
  const delay = typeof first === 'number' ? { rise: tripleOf(first), fall: tripleOf(first) } : first;
  return {
    name: 'test',
    sheet: null,
    conditions: null,
    clockToQ: { first: delay, next: null },
    stagesPerPart: null,
    logic: null,
    latch: null,
    clear: zeroDelay,
    setup: null,
    hold: null,
    recovery: null,
    removal: null,
    width: null,
    period: null,
    tau: null,
    window: null,
    ...more,
  };
}

/** Declares `q`: toggles in a row, the first clocked by `clk`, each other one by the bit before it. */
export function toggleChain(
  c: Circuit,
  clk: Wire,
  edges: readonly ('rising' | 'falling')[],
  start = '0'.repeat(edges.length),
): Wire {
  return c.registers(
    'q',
    { width: edges.length },
    edges.map((edge, index) => ({
      low: index,
      width: 1,
      clock: (q: Wire) => (index === 0 ? clk : q.bit(index - 1)),
      edge,
      data: (q: Wire) => c.not(q.bit(index)),
      initial: start[edges.length - 1 - index],
    })),
  );
}

export function falling(count: number): 'falling'[] {
  return new Array<'falling'>(count).fill('falling');
}

function only<Value>(found: readonly Value[], what: string): Value {
  if (found.length !== 1) throw new Error(`${found.length} of ${what}`);
  return found[0];
}
