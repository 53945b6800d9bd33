// Runs the timed engine over a circuit made by hand and reads its waves in few words. Times in ns unless said.

import { type Limits, limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { ClockNetwork } from '../../server/src/clocks/network';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { bitsOf } from '../../server/src/netlist/four-state';
import { signalBitName } from '../../server/src/netlist/bit-names';
import type { Netlist, Signal, SignalId } from '../../server/src/netlist/netlist';
import type { Drive, DriveClock } from '../../server/src/predict/drive';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { levelAt, signalAt } from '../../server/src/predict/wave-query';
import type { Waves } from '../../server/src/predict/waves';
import { toBinary } from '../../server/src/netlist/four-state';
import { nothingStated } from '../clocks/describe-clocks';

/** ns; a clock rises first at `phase` (half its period where not given) and is high for half its period. */
export interface TimedOptions {
  readonly clocks?: Readonly<
    Record<string, { readonly period: number; readonly phase?: number; readonly high?: number }>
  >;
  /** Signal → ns of the release; `active` high where not given. */
  readonly resets?: Readonly<Record<string, { readonly release: number; readonly active?: 'high' | 'low' }>>;
  /** Held values: digits. */
  readonly inputs?: Readonly<Record<string, string>>;
  readonly pulls?: readonly string[];
  readonly delays?: string | DelaySet;
  readonly until: number;
  readonly start?: '0' | '1' | 'x';
  readonly triple?: 'min' | 'typ' | 'max';
  readonly limits?: Partial<Limits>;
  readonly seed?: number;
  /** Groups of roots with a known relation. */
  readonly related?: readonly (readonly string[])[];
}

export interface Timed {
  readonly netlist: Netlist;
  readonly waves: Waves;
  /** `0 @10:1 @20:0`: start level and changes of a scalar or of the bit `name[i]`, times in ns. */
  wave(name: string): string;
  /** Binary digits of a signal just after an instant, and just before it. */
  at(name: string, time: number): string;
  before(name: string, time: number): string;
  /** `time kind signal` of each doubt. */
  readonly doubts: readonly string[];
  signal(name: string): Signal;
}

export function runTimed(netlist: Netlist, options: TimedOptions): Timed {
  const network = finish(findClocks(netlist, { ...nothingStated, related: options.related ?? [] }));
  const drive = driveBy(netlist, network, options);
  const waves = finish(
    predictWaves({
      netlist,
      network,
      drive,
      delaySet: setBy(options.delays ?? 'unit'),
      until: ps(options.until),
      limits: { ...limitDefaults, ...options.limits },
      start: options.start ?? '0',
      ...(options.triple === undefined ? {} : { triple: options.triple }),
      ...(options.seed === undefined ? {} : { seed: options.seed }),
    }),
  );
  return describeRun(netlist, waves);
}

export function describeRun(netlist: Netlist, waves: Waves): Timed {
  const signal = (name: string) => signalNamed(netlist, name);
  const value = (name: string, time: number, side: 'before' | 'after') =>
    toBinary(signalAt(netlist, waves, signal(name), ps(time), side));
  return {
    netlist,
    waves,
    signal,
    wave: (name) => waveText(netlist, waves, name),
    at: (name, time) => value(name, time, 'after'),
    before: (name, time) => value(name, time, 'before'),
    doubts: waves.doubts.map(({ time, node, kind }) => `${time / 1000} ${kind} ${storedName(netlist, node)}`),
  };
}

export function finish<Result>(work: Generator<void, Result>): Result {
  for (;;) {
    const turn = work.next();
    if (turn.done === true) return turn.value;
  }
}

export function driveBy(
  netlist: Netlist,
  network: ClockNetwork,
  { clocks = {}, resets = {}, inputs = {}, pulls = [] }: TimedOptions,
): Drive {
  return {
    clocks: Object.entries(clocks).map(
      ([name, { period, phase, high }]): DriveClock => ({
        root: network.roots.findIndex((root) => root.name === name),
        bit: { node: signalNamed(netlist, name).node, bit: 0 },
        name,
        period: ps(period),
        exactPeriod: null,
        high: ps(high ?? period / 2),
        phase: ps(phase ?? period / 2),
        source: 'given',
        highSource: 'given',
        phaseSource: 'given',
      }),
    ),
    resets: Object.entries(resets).map(([name, { release, active = 'high' }]) => ({
      bit: { node: signalNamed(netlist, name).node, bit: 0 },
      name,
      active,
      periods: 2,
      release: ps(release),
      source: 'given' as const,
      activeSource: 'given' as const,
      periodsSource: 'given' as const,
    })),
    inputs: Object.entries(inputs).map(([name, digits]) => ({
      signal: signalNamed(netlist, name).id,
      name,
      value: bitsOf(digits),
      moves: null,
      source: 'given' as const,
      why: null,
    })),
    pulls: pulls.map((name) => ({ bit: { node: signalNamed(netlist, name).node, bit: 0 }, name })),
    assumptions: [],
  };
}

/** A set with one delay for all registers, ns, and one for every gate. */
export function plainSet(
  name: string,
  { register, gate = 0, ...more }: { register: number; gate?: number } & Partial<DelaySet>,
): DelaySet {
  const both = (ns: number) => ({ rise: tripleAt(ns), fall: tripleAt(ns) });
  const unit = setBy('unit');
  return {
    ...unit,
    name,
    clockToQ: { first: both(register), next: null },
    clear: both(register),
    logic: gate === 0 ? null : { gate: both(gate), inverter: both(gate), buffer: both(gate), multiplexer: both(gate) },
    ...more,
  };
}

/** min = typ = max, from ns. */
export function tripleAt(ns: number) {
  return { min: ps(ns), typ: ps(ns), max: ps(ns) };
}

function ps(ns: number): number {
  return Math.round(ns * 1000);
}

function setBy(delays: string | DelaySet): DelaySet {
  const set = typeof delays === 'string' ? builtInDelaySet(delays) : delays;
  if (set === null) throw new Error(`no delay set ${delays}`);
  return set;
}

function signalNamed(netlist: Netlist, name: string): Signal {
  const signal = netlist.signals.find((candidate) => candidate.name === name);
  if (signal === undefined) throw new Error(`no signal ${name}`);
  return signal;
}

function waveText(netlist: Netlist, waves: Waves, name: string): string {
  for (const signal of netlist.signals) {
    for (let bit = 0; bit < signal.width; bit++) {
      if (signalBitName(signal, bit) !== name) continue;
      const at = { node: signal.node, bit };
      const changes = Array.from(waves.changesOf(at), (index) => {
        const { time, value } = waves.changes;
        return ` @${time[index] / 1000}:${digits[value[index]]}`;
      });
      return `${digits[levelAt(waves, at, 0, 'after')]}${changes.join('')}`;
    }
  }
  throw new Error(`no bit ${name}`);
}

const digits = ['0', '1', 'z', 'x'];

function storedName(netlist: Netlist, node: number): string {
  const stored = [...netlist.registers, ...netlist.latches].find((candidate) => candidate.node === node);
  return stored === undefined ? `node ${node}` : netlist.signals[stored.signal as SignalId].name;
}
