// The clocks of a drive (definition 35). The first root: 20 ns, first rise at 10 ns, high half the period. Further roots,
// in source order: 26, 34, 46, 58 … ns. That row is twice the primes 13, 17, 23, 29 …, each the least prime not below
// 5/4 of the one before, beginning at 10: no two rise together often, and each is clearly slower than the one before. From
// a period of 20 us on it is the next prime, so that the hundredth clock still moves in a run that a person looks at.
// An inout used on an edge is not driven: it reads its pull-up (definition 7).

import type { ClockNetwork, Root } from '../clocks/network';
import type { Bit } from '../netlist/netlist';
import type { Place } from '../text/place';
import { timeWords } from '../text/time-words';
import type { Assumption, DriveClock, DriveOptions, DrivePull, Source } from './drive';
import { assumedAsTold, clockOfWave, notTold, sourceOf, type ToldWave, type ToldWaves } from './drive-told';
import { type DrivePorts, type TakenBits, takeBit } from './drive-ports';
import { hintOfName } from './drive-words';

export interface DrivenClocks {
  readonly clocks: readonly DriveClock[];
  readonly pulls: readonly DrivePull[];
  readonly assumptions: readonly Assumption[];
}

export interface ClockInput {
  readonly network: ClockNetwork;
  readonly ports: DrivePorts;
  readonly options: DriveOptions;
  readonly told: ToldWaves;
  /** Gets the bits that are clocks. */
  readonly taken: TakenBits;
}

export function driveClocks(input: ClockInput): DrivenClocks {
  const { network, ports, options } = input;
  const clocks: DriveClock[] = [];
  const pulls: DrivePull[] = [];
  const assumptions: Assumption[] = [];
  const periods = createPeriods(options);
  const add = (source: ClockSource): void => {
    takeBit(input.taken, source.bit);
    const given = givenFor(options, source.name);
    const told = given === undefined ? input.told.get(source.name) : undefined;
    clocks.push(toldClock(source, told, assumptions) ?? clockOf(source, given, periods.next(), assumptions));
  };
  network.roots.forEach((root, index) => {
    const { bit, name, place } = root;
    const isClock = givenFor(options, name) !== undefined || (!isInput(input, name) && isDriven(network, root, index));
    if (isClock) add({ root: index, bit, name, place });
    else if (root.kind === 'inout') pulls.push({ bit, name });
    assumptions.push(
      ...undrivenAssumption(
        root,
        clocks.some((clock) => clock.root === index),
      ),
    );
  });
  for (const name of Object.keys(options.clocks)) {
    if (network.roots.some((root) => root.name === name)) continue;
    const found = ports.bitNamed(name);
    if (found === null) assumptions.push(unknownName('clocks', name));
    else add({ root: -1, bit: found.bit, name, place: found.port.signal.place });
  }
  return { clocks, pulls, assumptions };
}

function givenFor({ clocks }: DriveOptions, name: string): Given {
  return Object.hasOwn(clocks, name) ? clocks[name] : undefined;
}

/** A person, a test bench or a dump says what it does: it is no periodic clock, though something is clocked by it. */
function isInput({ told, options }: ClockInput, name: string): boolean {
  if (Object.hasOwn(options.inputs, name)) return true;
  const wave = told.get(name)?.wave ?? null;
  return wave !== null && wave.changes.length > 0 && clockOfWave(wave) === null;
}

/** What is said of a root that nothing drives: a pull-up is taken to hold it, or it stays unknown. */
function undrivenAssumption({ kind, name, place }: Root, isDrivenHere: boolean): Assumption[] {
  if (isDrivenHere) return [];
  const args = { name };
  if (kind === 'inout') {
    return [{ about: name, value: '1', source: 'setting', why: { reason: 'drive-pull-up', args }, place }];
  }
  if (kind !== 'undriven') return [];
  return [{ about: name, value: 'x', source: 'inferred', why: { reason: 'drive-clock-undriven', args }, place }];
}

export function unknownName(list: 'clocks' | 'resets' | 'inputs', name: string): Assumption {
  return {
    about: name,
    value: '',
    source: 'given',
    why: { reason: 'drive-unknown-name', args: { list, name } },
    place: null,
  };
}

interface ClockSource {
  readonly root: number;
  readonly bit: Bit;
  readonly name: string;
  readonly place: Place;
}

/** A root clocks registers; one that only opens latches does where nothing else is a clock, or its name says so. */
function isDriven(network: ClockNetwork, { kind, name }: Root, index: number): boolean {
  if (kind === 'inout' || kind === 'undriven' || kind === 'latch') return false;
  if (network.registers.some(({ roots }) => roots.includes(index))) return true;
  const clocksNothing = network.registers.every(({ roots }) => roots.length === 0);
  return clocksNothing || hintOfName(name)?.role === 'clock';
}

/** ns; half the period from which on the row no longer grows by a quarter. */
const slowestHalf = 10_000;

/** ps; the default period of each clock in turn, passing by those that a person gave to another. */
function createPeriods({ clocks }: DriveOptions) {
  const given = new Set(Object.values(clocks).map(({ periodPs }) => periodPs));
  let half = 0;
  const step = () => {
    half = half === 0 ? 10 : nextPrime(half < slowestHalf ? Math.ceil((5 * half) / 4) : half + 1);
    return 2000 * half;
  };
  return {
    next(): number {
      let period = step();
      while (given.has(period)) period = step();
      return period;
    },
  };
}

function nextPrime(from: number): number {
  let candidate = from;
  while (!isPrime(candidate)) candidate++;
  return candidate;
}

function isPrime(value: number): boolean {
  for (let factor = 2; factor * factor <= value; factor++) if (value % factor === 0) return false;
  return value > 1;
}

type Given = DriveOptions['clocks'][string] | undefined;

type Refuse = (reason: string, written: number) => void;

/** As a test bench or a dump drives it; null where none does, or in no way that is followed. */
function toldClock(
  { root, bit, name }: ClockSource,
  told: ToldWave | undefined,
  assumptions: Assumption[],
): DriveClock | null {
  if (told === undefined) return null;
  const clock = told.wave === null ? null : clockOfWave(told.wave);
  assumptions.push(clock === null ? notTold(name, told) : assumedAsTold(name, timeWords(clock.period), told));
  if (clock === null) return null;
  const source = sourceOf(told);
  return { root, bit, name, ...clock, exactPeriod: null, source, highSource: source, phaseSource: source };
}

function clockOf(source: ClockSource, given: Given, usual: number, assumptions: Assumption[]): DriveClock {
  const { root, bit, name, place } = source;
  const refuse: Refuse = (reason, written) => {
    const why = { reason, args: { name, written } };
    assumptions.push({ about: name, value: String(written), source: 'given', why, place });
  };
  const exact = statedPeriod(given, refuse);
  const period = exact === null ? usual : Math.round(exact.numerator / exact.denominator);
  const half = Math.round(period / 2);
  const isHigh = (ps: number) => ps > 0 && ps < period;
  const high = statedTime(given?.highPs ?? null, isHigh, 'drive-high-refused', refuse);
  const phase = statedTime(given?.phasePs ?? null, (ps) => ps >= 0, 'drive-phase-refused', refuse);
  if (exact === null) {
    const why = { reason: 'drive-clock-assumed', args: { name, period, phase: phase ?? half } };
    assumptions.push({ about: name, value: timeWords(period), source: 'setting', why, place });
  }
  const exactPeriod = exact === null || exact.denominator === 1 ? null : exact;
  const sourceOf = (stated: unknown): Source => (stated === null ? 'setting' : 'given');
  return {
    root,
    bit,
    name,
    period,
    exactPeriod,
    high: high ?? half,
    phase: phase ?? half,
    source: sourceOf(exact),
    highSource: sourceOf(high),
    phaseSource: sourceOf(phase),
  };
}

/** Null where none is stated, or what is stated is refused. */
function statedPeriod(given: Given, refuse: Refuse): DriveClock['exactPeriod'] {
  const written = given?.periodPs ?? null;
  if (written === null) return null;
  const exact = exactPeriod(written);
  if (exact === null) refuse('drive-period-refused', written);
  return exact;
}

function statedTime(
  written: number | null,
  fits: (ps: number) => boolean,
  reason: string,
  refuse: Refuse,
): number | null {
  if (written === null) return null;
  if (Number.isSafeInteger(written) && fits(written)) return written;
  refuse(reason, written);
  return null;
}

/** A period as written in ps, decimal digits read exactly, in lowest terms; null below 2 ps or beyond exact numbers. */
function exactPeriod(written: number): DriveClock['exactPeriod'] {
  const match = /^([0-9]+)(?:[.]([0-9]+))?$/.exec(String(written));
  if (match === null || written < 2) return null;
  const fraction = match[2] ?? '';
  const numerator = Number(match[1] + fraction);
  const denominator = 10 ** fraction.length;
  if (!Number.isSafeInteger(numerator)) return null;
  const divisor = commonDivisor(numerator, denominator);
  return { numerator: numerator / divisor, denominator: denominator / divisor };
}

function commonDivisor(left: number, right: number): number {
  let [a, b] = [left, right];
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}
