// Judges a transition by the target's value at every set of changes: those of a forest that has one order, and those
// that fall into blocks whose inner order is free.

import { type Blocks, restlessOrder } from './glitch-blocks';
import { type Example, exampleOfSteps, type ForestCase, type Found, type TimedForest } from './glitch-case';
import { apart, earliestRun, leastAfter, mostAfter, type Times } from './glitch-times';
import { settledLevel } from './glitch-value';
import type { Vertices } from './glitch-vertices';
import { clean, judgeWave, type Wave } from './glitch-wave';

/** Every block holds one change. */
export function judgeOneOrder({ timed, scene }: ForestCase, { blocks }: Blocks, vertices: Vertices): Found {
  const events = blocks.map(([event]) => event);
  const instants: number[] = [];
  const first = settledLevel(vertices.may[0]) ?? 0;
  events.forEach((event, index) => {
    const level = settledLevel(vertices.may[vertices.starts[index] + 1]);
    const now = instants.length % 2 === 0 ? first : 1 - first;
    if (level !== null && level !== now) instants.push(event + 1);
  });
  const wave: Wave = { first, instants };
  return { ...judgeWave(wave, timed.times, scene.inertia), basis: 'order', example: exampleOf(wave, timed.times) };
}

function exampleOf(wave: Wave, times: Times): Example | null {
  if (wave.instants.length < 2) return null;
  const [from, until] = wave.instants;
  return { wave, at: earliestRun(apart(times, from, until, mostAfter(times, from, until)) ?? times) };
}

/** Certain is what shows between the blocks, which lie apart; possible what some order inside them adds. */
export function judgeBlocks({ timed }: ForestCase, blocks: Blocks, vertices: Vertices): Found {
  const steps = restlessOrder(blocks, vertices);
  if (steps.changes.length < 2) return { ...clean, basis: 'order', example: null };
  const sure = changesBetween(blocks, vertices);
  const certain = sure.length >= 2;
  return {
    possible: true,
    certain,
    width: { min: certain ? leastBetween(timed, blocks, sure) : 0, max: mostBetween(timed, blocks, vertices) },
    basis: certain ? 'order' : 'open-order',
    example: exampleOfSteps(timed, steps),
  };
}

/** The blocks after which, once whole, the target has another level. */
function changesBetween({ blocks }: Blocks, vertices: Vertices): number[] {
  let now = settledLevel(vertices.may[0]);
  return Array.from(blocks.keys()).filter((index) => {
    const level = settledLevel(vertices.may[vertices.starts[index] + 2 ** blocks[index].length - 1]);
    if (level === null || level === now) return false;
    now = level;
    return true;
  });
}

/** Of levels that stand from one block to another, the widest: how long it lasts at least. */
export function leastBetween({ times }: TimedForest, { blocks }: Blocks, changes: readonly number[]): number {
  const widths = changes.slice(1).map((until, index) => {
    const from = blocks[changes[index]];
    return Math.min(
      ...from.flatMap((first) => blocks[until].map((second) => leastAfter(times, first + 1, second + 1))),
    );
  });
  const extra = widths.filter((_, index) => changes.length % 2 === 1 || index % 2 === 0);
  return Math.max(...extra);
}

/** At most as far as two events can lie apart that can each change the target. */
function mostBetween({ times }: TimedForest, { blocks }: Blocks, vertices: Vertices): number {
  const decisive = blocks.flatMap((block, index) =>
    block.filter((_, position) => canChange(vertices, vertices.starts[index], 2 ** block.length, 1 << position)),
  );
  let most = 0;
  for (const first of decisive) {
    for (const second of decisive) if (first !== second) most = Math.max(most, mostAfter(times, first + 1, second + 1));
  }
  return most;
}

function canChange({ may }: Vertices, start: number, sets: number, event: number): boolean {
  for (let set = 0; set < sets; set++) {
    if ((set & event) === 0 && may[start + set] !== may[start + (set | event)]) return true;
  }
  return false;
}
