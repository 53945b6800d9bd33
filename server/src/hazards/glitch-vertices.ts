// The target's value at every set of changes that may have happened so far, where changes come in blocks: all of one
// block before any of the next, those of one block in any order. One lane per set; block by block, within a block the
// set as a binary number.

import type { ForestEvent, Transition } from './glitch-forest';
import { type LaneTask, runLanes } from './glitch-lanes';
import { supportOf } from './glitch-parts';
import { type Scene, targetCone } from './glitch-scene';
import { May } from './glitch-value';

export interface Vertices {
  /** First lane of each block; lane of a set: start + binary number of the set. */
  readonly starts: readonly number[];
  readonly count: number;
  /** What the target may be (`May`), by lane: exact, and with operators of unknown structure blurred. */
  readonly may: Uint8Array;
  readonly blurred: Uint8Array;
}

/** `blocks`: events in each. An empty list of blocks has one lane: nothing happens. */
export function findVertices(
  scene: Scene,
  transition: Transition,
  blocks: readonly (readonly ForestEvent[])[],
): Vertices {
  const starts: number[] = [];
  let count = 0;
  for (const block of blocks) {
    starts.push(count);
    count += 2 ** block.length;
  }
  count = Math.max(count, 1);
  const patterns = patternsOf(blocks, starts, count);
  const may = lanesOf(scene, transition, patterns, count, 'pass');
  const { hasMarks } = targetCone(scene);
  const isVague = hasMarks || scene.observed.some((variable) => scene.part(variable).kind === 'opaque');
  return { starts, count, may, blurred: isVague ? lanesOf(scene, transition, patterns, count, 'blur') : may };
}

/** Per variable that changes: in which lanes it has. */
function patternsOf(
  blocks: readonly (readonly ForestEvent[])[],
  starts: readonly number[],
  count: number,
): Map<number, Int32Array> {
  const patterns = new Map<number, Int32Array>();
  const words = (count + 31) >>> 5;
  blocks.forEach((block, index) => {
    const end = starts[index] + 2 ** block.length;
    block.forEach(({ variable }, position) => {
      const pattern = new Int32Array(words);
      for (let lane = starts[index]; lane < end; lane++) {
        if ((((lane - starts[index]) >>> position) & 1) === 1) pattern[lane >>> 5] |= 1 << (lane & 31);
      }
      for (let lane = end; lane < count; lane++) pattern[lane >>> 5] |= 1 << (lane & 31);
      patterns.set(variable, pattern);
    });
  });
  return patterns;
}

function lanesOf(
  scene: Scene,
  transition: Transition,
  patterns: ReadonlyMap<number, Int32Array>,
  count: number,
  marks: 'pass' | 'blur',
): Uint8Array {
  const words = (count + 31) >>> 5;
  const fill: LaneTask['fill'] = (variable, planes, at) =>
    scene.part(variable).kind === 'opaque'
      ? fillOpaque(scene, transition, patterns, variable, { planes, at, words, marks })
      : fillChanging(transition, patterns.get(variable), variable, { planes, at, words });
  const { one, planes, zero } = runLanes({ cone: targetCone(scene), words, room: scene.workshop.room, fill, marks });
  const may = new Uint8Array(count);
  for (let lane = 0; lane < count; lane++) {
    const isOne = (planes[one + (lane >>> 5)] >>> (lane & 31)) & 1;
    const isZero = (planes[zero + (lane >>> 5)] >>> (lane & 31)) & 1;
    may[lane] = isOne * May.beOne + isZero * May.beZero;
  }
  return may;
}

/** Where the planes of a variable are written. */
interface Spot {
  readonly planes: Int32Array;
  readonly at: number;
  readonly words: number;
}

function fillChanging(
  { before, after }: Transition,
  pattern: Int32Array | undefined,
  variable: number,
  { at, planes, words }: Spot,
): void {
  const [old, now] = [before[variable], after[variable]];
  for (let word = 0; word < words; word++) {
    const changed = pattern === undefined ? 0 : pattern[word];
    planes[at + word] = (old === 0 ? 0 : ~changed) | (now === 0 ? 0 : changed);
    planes[at + words + word] = (old === 1 ? 0 : ~changed) | (now === 1 ? 0 : changed);
    planes[at + 2 * words + word] = changed;
  }
}

/** Old before anything that it hears has changed, new once all of that has, between them either. */
function fillOpaque(
  { part, workshop }: Scene,
  { before, after }: Transition,
  patterns: ReadonlyMap<number, Int32Array>,
  variable: number,
  { at, marks, planes, words }: Spot & { readonly marks: 'pass' | 'blur' },
): void {
  const opaque = part(variable);
  const heard = opaque.kind === 'opaque' ? opaque.hears.flatMap((literal) => supportOf(workshop, literal)) : [];
  const movers = [...new Set(heard)].flatMap((number) => patterns.get(number) ?? []);
  for (let word = 0; word < words; word++) {
    const some = movers.reduce((any, pattern) => any | pattern[word], 0);
    const all =
      marks === 'blur' ? 0 : movers.reduce((every, pattern) => every & pattern[word], movers.length === 0 ? 0 : -1);
    const between = some & ~all;
    planes[at + word] = between | (before[variable] === 0 ? 0 : ~some) | (after[variable] === 0 ? 0 : all);
    planes[at + words + word] = between | (before[variable] === 1 ? 0 : ~some) | (after[variable] === 1 ? 0 : all);
    planes[at + 2 * words + word] = some;
  }
}
