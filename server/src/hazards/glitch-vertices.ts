// The target's value at every set of changes that may have happened so far, where changes come in blocks: all of one
// block before any of the next, those of one block in any order. One lane per set; block by block, within a block the
// set as a binary number.

import { GateKind } from './glitch-gates';
import type { ForestEvent, Transition } from './glitch-forest';
import { createPlanes, type Planes, runLanes } from './glitch-lanes';
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
  const hasMarks = targetCone(scene).some((gate) => scene.workshop.logic.gates.kind[gate] === GateKind.mark);
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
  const variable = (number: number): Planes =>
    scene.part(number).kind === 'opaque'
      ? opaquePlanes(scene, transition, patterns, number, { words, marks })
      : changingPlanes(transition, patterns.get(number), number, words);
  const read = runLanes({ gates: scene.workshop.logic.gates, cone: targetCone(scene), words, variable, marks });
  const { mayBeOne, mayBeZero } = read(scene.target);
  return Uint8Array.from({ length: count }, (_, lane) => {
    const one = (mayBeOne[lane >>> 5] >>> (lane & 31)) & 1;
    const zero = (mayBeZero[lane >>> 5] >>> (lane & 31)) & 1;
    return one * May.beOne + zero * May.beZero;
  });
}

function changingPlanes(
  { before, after }: Transition,
  pattern: Int32Array | undefined,
  variable: number,
  words: number,
): Planes {
  const planes = createPlanes(words);
  const [old, now] = [before[variable], after[variable]];
  for (let word = 0; word < words; word++) {
    const changed = pattern === undefined ? 0 : pattern[word];
    planes.mayBeOne[word] = (old === 0 ? 0 : ~changed) | (now === 0 ? 0 : changed);
    planes.mayBeZero[word] = (old === 1 ? 0 : ~changed) | (now === 1 ? 0 : changed);
    planes.moved[word] = changed;
  }
  return planes;
}

/** Old before anything that it hears has changed, new once all of that has, between them either. */
function opaquePlanes(
  { part, workshop }: Scene,
  { before, after }: Transition,
  patterns: ReadonlyMap<number, Int32Array>,
  variable: number,
  { words, marks }: { readonly words: number; readonly marks: 'pass' | 'blur' },
): Planes {
  const opaque = part(variable);
  const heard = opaque.kind === 'opaque' ? opaque.hears.flatMap((literal) => supportOf(workshop, literal)) : [];
  const movers = [...new Set(heard)].flatMap((number) => patterns.get(number) ?? []);
  const planes = createPlanes(words);
  for (let word = 0; word < words; word++) {
    const some = movers.reduce((any, pattern) => any | pattern[word], 0);
    const all =
      marks === 'blur' ? 0 : movers.reduce((every, pattern) => every & pattern[word], movers.length === 0 ? 0 : -1);
    const between = some & ~all;
    planes.mayBeOne[word] = between | (before[variable] === 0 ? 0 : ~some) | (after[variable] === 0 ? 0 : all);
    planes.mayBeZero[word] = between | (before[variable] === 1 ? 0 : ~some) | (after[variable] === 1 ? 0 : all);
    planes.moved[word] = some;
  }
  return planes;
}
