// What a test bench's text or a value change dump tells of the drive: the wave it puts on a port as a periodic clock, as a
// reset that is active from the start and then released, or as an input that moves. A port of more than one bit is never a
// clock or a reset.

import type { Why } from '../clocks/network';
import type { Bench, BenchWave } from '../netlist/bench';
import { digitAt } from '../netlist/four-state';
import type { Place } from '../text/place';
import type { Assumption, Source } from './drive';

/** By name of the port. */
export type ToldWaves = ReadonlyMap<string, ToldWave>;

export interface ToldWave {
  readonly teller: Teller;
  /** What a bench connects to the port; null for a dump, which is no source text. */
  readonly place: Place | null;
  /** Null where the port is driven in a way that cannot be followed. */
  readonly wave: BenchWave | null;
}

export interface Teller {
  readonly kind: 'bench' | 'dump';
  /** Of the test bench's module; of the dump its file and scope. */
  readonly name: string;
}

export function wavesOfBench(bench: Bench | null): ToldWaves {
  const ports = bench?.ports ?? [];
  const teller = { kind: 'bench', name: bench?.name ?? '' } as const;
  return new Map(ports.map(({ name, place, wave }) => [name, { teller, place, wave }] as const));
}

/** A dump is named by the person, who so states it; a bench stands in the text. */
export function sourceOf({ teller }: ToldWave): Source {
  return teller.kind === 'dump' ? 'given' : 'text';
}

/** ps, whole numbers. */
export interface ToldClock {
  readonly period: number;
  readonly high: number;
  readonly phase: number;
}

/** Two whole periods and more of one rhythm; null for any other wave. */
export function clockOfWave({ changes, start }: BenchWave): ToldClock | null {
  const levels = [start, ...changes.map(({ value }) => value)].map((value) =>
    value.width === 1 ? digitAt(value, 0) : 'x',
  );
  // One that is unknown until the bench first sets it counts from there.
  const from = levels[0] === 'x' ? 1 : 0;
  if (changes.length - from < leastChanges || levels.slice(from).some((level) => level !== '0' && level !== '1')) {
    return null;
  }
  const times = changes.map(({ at }) => at);
  const rise = levels[from] === '0' ? from : from + 1;
  const high = times[rise + 1] - times[rise];
  const period = times[rise + 2] - times[rise];
  const isSteady = times.every((at, index) => index < rise + 2 || at - times[index - 2] === period);
  if (!isSteady || !(high > 0 && high < period)) return null;
  const isHighAtStart = from === 0 && rise === 1;
  // A clock that starts high and falls after its high time has risen at 0.
  return { period, high, phase: isHighAtStart && times[0] === high ? 0 : times[rise] };
}

const leastChanges = 4;

/** When a reset is released; ps. Null where the wave is not active from the start and then inactive for good. */
export function releaseOfWave({ changes, start }: BenchWave, active: 'high' | 'low'): number | null {
  const [activeLevel, idleLevel] = active === 'high' ? ['1', '0'] : ['0', '1'];
  if (start.width !== 1 || digitAt(start, 0) !== activeLevel || changes.length !== 1) return null;
  return digitAt(changes[0].value, 0) === idleLevel ? changes[0].at : null;
}

/** What the drive takes from a bench or a dump, said where it stands. */
export function assumedAsTold(name: string, value: string, told: ToldWave): Assumption {
  return { about: name, value, source: sourceOf(told), why: whyOf(name, told, ''), place: told.place };
}

/** A bench went on when it was no longer followed: held from there on. */
export function cutAsTold(name: string, value: string, told: ToldWave, at: number): Assumption {
  const { args, reason } = whyOf(name, told, '-cut');
  return { ...assumedAsTold(name, value, told), why: { reason, args: { ...args, at } } };
}

/** The port is driven in a way that is not followed: what is assumed instead is said beside this. */
export function notTold(name: string, told: ToldWave): Assumption {
  return { about: name, value: '', source: sourceOf(told), why: whyOf(name, told, '-not-followed'), place: told.place };
}

function whyOf(name: string, { teller }: ToldWave, outcome: '' | '-cut' | '-not-followed'): Why {
  const told = outcome === '' ? `drive-from-${teller.kind}` : `drive-${teller.kind}${outcome}`;
  return { reason: told, args: { name, [teller.kind]: teller.name } };
}
