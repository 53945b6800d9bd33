// Changes of one transition sorted into blocks: everything of one block comes before everything of the next, whatever
// the delays; inside a block no order is fixed. Then one walk over the sets of changes decides what all orders do
// (definitions 21 to 23 of the project). Not every transition falls into such blocks; see `blocksOf`.

import { apart, mostAfter, type Times, within } from './glitch-times';
import { May } from './glitch-value';
import type { Vertices } from './glitch-vertices';
import type { Steps, TimedForest } from './glitch-case';

export interface Blocks {
  /** Events of each block. */
  readonly blocks: readonly (readonly number[])[];
  /** Bounds under which all events of a block happen at once; null where the order inside one is not free. */
  readonly together: Times | null;
  /** Any event of a block lies before any of the next by more than nothing. */
  readonly areApart: boolean;
}

/** `events`: those that matter, as indices of the forest. */
export function blocksOf(timed: TimedForest, events: readonly number[]): Blocks {
  const ordered = [...events].sort((left, right) => timed.typical[left] - timed.typical[right] || left - right);
  const blocks: number[][] = [];
  for (const event of ordered) insert(timed, blocks, event);
  return { blocks, together: takenTogether(timed, blocks), areApart: followApart(timed, blocks) };
}

/** Whether one event comes before the other whatever the delays: by its bounds, or since it leads to it. */
function comesBefore({ forest, times }: TimedForest, first: number, second: number): boolean {
  if (mostAfter(times, second + 1, first + 1) < 0) return true;
  for (let event = forest[second].cause; event !== null; event = forest[event].cause) if (event === first) return true;
  return false;
}

/** Blocks that hold an event which the new one neither follows nor precedes melt together, with all between them. */
function insert(timed: TimedForest, blocks: number[][], event: number): void {
  const isBefore = (block: readonly number[]) => block.every((other) => comesBefore(timed, other, event));
  const isAfter = (block: readonly number[]) => block.every((other) => comesBefore(timed, event, other));
  let from = 0;
  while (from < blocks.length && isBefore(blocks[from])) from++;
  let until = blocks.length;
  while (until > from && isAfter(blocks[until - 1])) until--;
  const melted = blocks.slice(from, until).flat();
  blocks.splice(from, until - from, [...melted, event]);
}

function takenTogether(timed: TimedForest, blocks: readonly (readonly number[])[]): Times | null {
  let together: Times | null = timed.times;
  for (const block of blocks) {
    for (const event of block) {
      if (block.some((other) => other !== event && comesBefore(timed, other, event))) return null;
      if (together !== null) together = apart(together, block[0] + 1, event + 1);
      if (together !== null) together = within(together, block[0] + 1, event + 1, 0);
    }
  }
  return together;
}

function followApart({ times }: TimedForest, blocks: readonly (readonly number[])[]): boolean {
  return blocks.every((block, index) => {
    const before = index === 0 ? [] : blocks[index - 1];
    return before.every((first) => block.every((second) => mostAfter(times, second + 1, first + 1) < 0));
  });
}

const either = May.beZero | May.beOne;

/**
 * The order in which the target changes most often. Blocks are walked one after the other; within one, sets of events
 * from the smallest to the largest.
 */
export function restlessOrder({ blocks }: Blocks, vertices: Vertices): Steps {
  const { may } = vertices;
  const best = new Int32Array(2 * vertices.count).fill(-1);
  const cameBy = new Int32Array(2 * vertices.count).fill(-1);
  const first = (may[0] & May.beOne) === 0 ? 0 : 1;
  best[first] = 0;
  blocks.forEach((block, index) => {
    const start = vertices.starts[index];
    if (index > 0) carryOver(best, cameBy, start - 1, start);
    for (let set = 1; set < 2 ** block.length; set++) {
      for (let position = 0; position < block.length; position++) {
        if (((set >>> position) & 1) === 0) continue;
        improve({ best, cameBy }, may, start + (set ^ (1 << position)), start + set);
      }
    }
  });
  return traceBack(blocks, vertices, { best, cameBy });
}

interface Walk {
  /** By lane and level: the most changes on a way there; -1: no way. */
  readonly best: Int32Array;
  /** By lane and level: the lane and level that it came from, as 2 × lane + level. */
  readonly cameBy: Int32Array;
}

function carryOver(best: Int32Array, cameBy: Int32Array, from: number, to: number): void {
  for (const level of [0, 1]) {
    best[2 * to + level] = best[2 * from + level];
    cameBy[2 * to + level] = 2 * from + level;
  }
}

function improve({ best, cameBy }: Walk, may: Uint8Array, from: number, to: number): void {
  for (const level of [0, 1]) {
    if ((may[to] & (level === 1 ? May.beOne : May.beZero)) === 0) continue;
    for (const before of [0, 1]) {
      const changes = best[2 * from + before];
      // Where it may be either, no change is counted; that it may be either is told apart.
      if (changes < 0 || (may[to] === either && level !== before)) continue;
      const total = changes + (level === before ? 0 : 1);
      if (total <= best[2 * to + level]) continue;
      best[2 * to + level] = total;
      cameBy[2 * to + level] = 2 * from + before;
    }
  }
}

function traceBack(blocks: Blocks['blocks'], vertices: Vertices, { best, cameBy }: Walk): Steps {
  const last = vertices.count - 1;
  const isOne = best[2 * last + 1] > best[2 * last];
  const order: number[] = [];
  const changes: number[] = [];
  let place = 2 * last + (isOne ? 1 : 0);
  for (let before = cameBy[place]; before >= 0; before = cameBy[place]) {
    const event = eventBetween(blocks, vertices, before >>> 1, place >>> 1);
    if (event !== null) {
      order.push(event);
      if ((before & 1) !== (place & 1)) changes.push(event);
    }
    place = before;
  }
  return { first: (place & 1) as 0 | 1, changes: changes.reverse(), order: order.reverse() };
}

/** The event whose happening leads from one lane to the other; null between two blocks. */
function eventBetween(blocks: Blocks['blocks'], { starts }: Vertices, from: number, to: number): number | null {
  let index = starts.length - 1;
  while (starts[index] > to) index--;
  if (from < starts[index]) return null;
  const added = (from - starts[index]) ^ (to - starts[index]);
  return blocks[index][31 - Math.clz32(added)];
}
