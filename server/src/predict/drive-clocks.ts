// The clocks of a drive (definition 35). The first root: 20 ns, first rise at 10 ns, high half the period. Further roots,
// in source order: 26, 34, 46, 58 … ns. That row is twice the primes 13, 17, 23, 29 …, each the least prime not below
// 5/4 of the one before, beginning at 10: no two rise together often, and each is clearly slower than the one before.
// An inout used on an edge is not driven: it reads its pull-up (definition 7).

import type { ClockNetwork, Root } from '../clocks/network';
import type { Bit } from '../netlist/netlist';
import type { Place } from '../text/place';
import type { Assumption, DriveClock, DriveOptions, DrivePull } from './drive';
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
  /** Gets the bits that are clocks. */
  readonly taken: TakenBits;
}

export function driveClocks({ network, ports, options, taken }: ClockInput): DrivenClocks {
  const clocks: DriveClock[] = [];
  const pulls: DrivePull[] = [];
  const assumptions: Assumption[] = [];
  const periods = createPeriods(options);
  const add = (source: ClockSource): void => {
    takeBit(taken, source.bit);
    clocks.push(
      clockOf(
        source,
        Object.hasOwn(options.clocks, source.name) ? options.clocks[source.name] : undefined,
        periods.next(),
        assumptions,
      ),
    );
  };
  network.roots.forEach((root, index) => {
    const { bit, name, place } = root;
    if (Object.hasOwn(options.clocks, name) || isDriven(network, root, index)) add({ root: index, bit, name, place });
    else if (root.kind === 'inout') {
      pulls.push({ bit, name });
      assumptions.push({
        about: name,
        value: '1',
        source: 'setting',
        why: { reason: 'drive-pull-up', args: { name } },
        place,
      });
    } else if (root.kind === 'undriven') {
      assumptions.push({
        about: name,
        value: 'x',
        source: 'inferred',
        why: { reason: 'drive-clock-undriven', args: { name } },
        place,
      });
    }
  });
  for (const name of Object.keys(options.clocks)) {
    if (network.roots.some((root) => root.name === name)) continue;
    const found = ports.bitNamed(name);
    if (found !== null) add({ root: -1, bit: found.bit, name, place: found.port.signal.place });
    else assumptions.push(unknownName('clocks', name));
  }
  return { clocks, pulls, assumptions };
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
  if (kind === 'inout' || kind === 'undriven') return false;
  if (network.registers.some(({ roots }) => roots.includes(index))) return true;
  const clocksNothing = network.registers.every(({ roots }) => roots.length === 0);
  return clocksNothing || hintOfName(name)?.role === 'clock';
}

/** ps; the default period of each clock in turn, passing by those that a person gave to another. */
function createPeriods({ clocks }: DriveOptions) {
  const given = new Set(Object.values(clocks).map(({ periodPs }) => periodPs));
  let half = 0;
  const step = () => {
    half = half === 0 ? 10 : nextPrime(Math.ceil((5 * half) / 4));
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

function clockOf(source: ClockSource, given: Given, usual: number, assumptions: Assumption[]): DriveClock {
  const { root, bit, name, place } = source;
  const refuse = (reason: string, written: number): void => {
    assumptions.push({
      about: name,
      value: String(written),
      source: 'given',
      why: { reason, args: { name, written } },
      place,
    });
  };
  const written = given?.periodPs ?? null;
  const exact = written === null ? null : exactPeriod(written);
  if (written !== null && exact === null) refuse('drive-period-refused', written);
  const period = exact === null ? usual : Math.round(exact.numerator / exact.denominator);
  const half = Math.round(period / 2);
  const high = given?.highPs ?? half;
  const isHighUsable = Number.isSafeInteger(high) && high > 0 && high < period;
  if (!isHighUsable) refuse('drive-high-refused', high);
  const phase = given?.phasePs ?? half;
  const isPhaseUsable = Number.isSafeInteger(phase) && phase >= 0;
  if (!isPhaseUsable) refuse('drive-phase-refused', phase);
  const isGiven = exact !== null;
  if (!isGiven) {
    const args = { name, period, phase: isPhaseUsable ? phase : half };
    assumptions.push({
      about: name,
      value: `${period} ps`,
      source: 'setting',
      why: { reason: 'drive-clock-assumed', args },
      place,
    });
  }
  return {
    root,
    bit,
    name,
    period,
    exactPeriod: exact === null || exact.denominator === 1 ? null : exact,
    high: isHighUsable ? high : half,
    phase: isPhaseUsable ? phase : half,
    source: isGiven ? 'given' : 'setting',
  };
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
