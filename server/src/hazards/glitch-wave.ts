// What one order of changes makes of a signal: the levels it passes, whether more of them than needed can come through
// an inertial delay (definition 25 of the project), and how wide they are. Exact for one delay at the signal's end:
// a level of width w that begins with a change of delay d is kept where w > d and removed where w < d; where both are
// possible, and at w = d, which IEEE 1364 leaves open, nothing is certain. A level of no width (the ideal delay set)
// is therefore never certain: nothing says that a reader can see it.

import type { DelayTriple } from '../netlist/netlist';
import type { DirectionalDelay } from '../delays/delay-set';
import { apart, leastAfter, mostAfter, type Times, within } from './glitch-times';

export type Level = 0 | 1;

/** The levels in turn: `first`, then the other one from each instant on. */
export interface Wave {
  readonly first: Level;
  readonly instants: readonly number[];
}

export interface Verdict {
  readonly possible: boolean;
  readonly certain: boolean;
  /** Widest level that should not be: at least, at most, ps. At least 0 where none is certain. */
  readonly width: { readonly min: number; readonly max: number };
}

export const clean: Verdict = { possible: false, certain: false, width: { min: 0, max: 0 } };

/** One more change than the ends need is not possible: there is one level too many, or two. */
export function judgeWave(wave: Wave, times: Times, inertia: DirectionalDelay): Verdict {
  const count = wave.instants.length;
  if (count <= 1) return clean;
  const levels: PassedLevel[] = [];
  for (let index = 1; index < count; index++) levels.push(passedLevel(wave, index, inertia));
  const possible = count % 2 === 0 ? canShowOne(levels, times) : canShowTwo(levels, times);
  if (!possible) return clean;
  const certain = !canStayClean(levels, count, times);
  return { possible, certain, width: widest(levels, times, certain) };
}

/** One run: when the signal itself changes, its inertial delay passed. `at`: ps of each instant of the wave. */
export function runThrough(
  wave: Wave,
  at: readonly number[],
  inertia: { readonly rise: number; readonly fall: number },
): { readonly at: number; readonly level: Level }[] {
  const shown: { readonly at: number; readonly level: Level }[] = [];
  wave.instants.forEach((instant, index) => {
    const level = levelOf(wave, index + 1);
    const before = shown.at(-1);
    // A change that has not come through yet when the next one arrives is taken back, and so is the next one.
    if (before !== undefined && before.at > at[instant]) shown.pop();
    else shown.push({ at: at[instant] + (level === 1 ? inertia.rise : inertia.fall), level });
  });
  return shown;
}

export function levelOf(wave: Wave, index: number): Level {
  return (index % 2 === 0 ? wave.first : 1 - wave.first) as Level;
}

/** A level between two changes. */
interface PassedLevel {
  readonly index: number;
  readonly from: number;
  readonly until: number;
  /** The delay of the change that begins it, and of the one that ends it. */
  readonly begin: DelayTriple;
  readonly end: DelayTriple;
}

function passedLevel(wave: Wave, index: number, { rise, fall }: DirectionalDelay): PassedLevel {
  const isHigh = levelOf(wave, index) === 1;
  return {
    index,
    from: wave.instants[index - 1],
    until: wave.instants[index],
    begin: isHigh ? rise : fall,
    end: isHigh ? fall : rise,
  };
}

/** Old and new are equal: any level that differs from both is one too many. */
function canShowOne(levels: readonly PassedLevel[], times: Times): boolean {
  return levels.some((level) => isOdd(level) && kept(level, times) !== null);
}

/** Old and new differ: the new one shows, then the old one again. */
function canShowTwo(levels: readonly PassedLevel[], times: Times): boolean {
  return levels.some((early) => {
    const withEarly = isOdd(early) ? kept(early, times) : null;
    if (withEarly === null) return false;
    return levels.some((late) => late.index > early.index && !isOdd(late) && kept(late, withEarly) !== null);
  });
}

/**
 * Clean runs are those where the old level stays until one change and the new one from there on: all odd levels
 * before it and all even ones after it are removed. With equal ends there is no such change: all odd ones are.
 */
function canStayClean(levels: readonly PassedLevel[], count: number, times: Times): boolean {
  if (count % 2 === 0) return allRemoved(levels.filter(isOdd), times);
  for (let change = 1; change <= count; change += 2) {
    const unwanted = levels.filter((level) => (isOdd(level) ? level.index < change : level.index > change));
    if (allRemoved(unwanted, times)) return true;
  }
  return false;
}

function allRemoved(levels: readonly PassedLevel[], times: Times): boolean {
  let bounded: Times | null = times;
  for (const { from, until, begin } of levels) {
    if (bounded !== null) bounded = within(bounded, from, until, begin.max);
  }
  return bounded !== null;
}

function kept({ from, until, begin }: PassedLevel, times: Times): Times | null {
  return apart(times, from, until, begin.min);
}

function widest(levels: readonly PassedLevel[], times: Times, certain: boolean): Verdict['width'] {
  let min = 0;
  let max = 0;
  for (const level of levels) {
    if (levels.length > 1 && levels.length % 2 === 1 && !isOdd(level)) continue;
    const least = leastAfter(times, level.from, level.until) + level.end.min - level.begin.max;
    const most = mostAfter(times, level.from, level.until) + level.end.max - level.begin.min;
    if (certain) min = Math.max(min, least);
    if (kept(level, times) !== null) max = Math.max(max, most);
  }
  return { min, max };
}

function isOdd({ index }: PassedLevel): boolean {
  return index % 2 === 1;
}
