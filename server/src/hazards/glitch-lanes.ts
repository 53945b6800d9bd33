// Tries a function for many values of its bits at once: 32 lanes to a word, and per gate three planes: may be 1, may be 0,
// and has heard a change. A mark (an operator of unknown structure) that has heard a change may be either. All planes
// stand in one array that is used again for the next function: 3 × words to a place of the cone, plane after plane.

import type { Cone } from './glitch-cone';
import { GateKind } from './glitch-gates';

/** Room for the planes; grows as needed. What stands in it is of use until the next run. */
export interface LaneRoom {
  planes: Int32Array;
}

export function createLaneRoom(): LaneRoom {
  return { planes: new Int32Array(0) };
}

export interface LaneTask {
  readonly cone: Cone;
  readonly words: number;
  readonly room: LaneRoom;
  /** Writes the planes of a variable from `at` on: the words of may be 1, those of may be 0, those of heard a change. */
  readonly fill: (variable: number, planes: Int32Array, at: number) => void;
  /** Marks pass their operand, or are unknown wherever it has heard a change. */
  readonly marks: 'pass' | 'blur';
}

export interface Lanes {
  readonly planes: Int32Array;
  /** Where the words of the function begin: may be 1, may be 0. */
  readonly one: number;
  readonly zero: number;
}

export function runLanes(task: LaneTask): Lanes {
  const { cone, room, words } = task;
  const size = cone.kind.length * 3 * words;
  if (room.planes.length < size) room.planes = new Int32Array(2 * size);
  const { planes } = room;
  for (let place = 0; place < cone.kind.length; place++) runGate(task, planes, place);
  return { planes, one: oneAt(cone.result, words), zero: zeroAt(cone.result, words) };
}

/** An operand is 2 × place, plus 1 for the inverse, whose first two planes change places. */
function oneAt(operand: number, words: number): number {
  return (operand >>> 1) * 3 * words + (operand & 1) * words;
}

function zeroAt(operand: number, words: number): number {
  return (operand >>> 1) * 3 * words + (1 - (operand & 1)) * words;
}

function movedAt(operand: number, words: number): number {
  return (operand >>> 1) * 3 * words + 2 * words;
}

function runGate({ cone, fill, marks, words }: LaneTask, planes: Int32Array, place: number): void {
  const { kind, a, b } = cone;
  const into = place * 3 * words;
  switch (kind[place]) {
    case GateKind.variable:
      fill(a[place], planes, into);
      break;
    case GateKind.and:
      runAnd(planes, into, a[place], b[place], words);
      break;
    case GateKind.choose:
      runChoice(planes, into, cone, place, words);
      break;
    case GateKind.mark:
      runMark(planes, into, a[place], { words, marks });
      break;
    default:
      planes.fill(kind[place] === GateKind.unknown ? -1 : 0, into, into + words);
      planes.fill(-1, into + words, into + 2 * words);
      planes.fill(0, into + 2 * words, into + 3 * words);
  }
}

function runAnd(planes: Int32Array, into: number, left: number, right: number, words: number): void {
  const leftOne = oneAt(left, words);
  const leftZero = zeroAt(left, words);
  const leftMoved = movedAt(left, words);
  const rightOne = oneAt(right, words);
  const rightZero = zeroAt(right, words);
  const rightMoved = movedAt(right, words);
  for (let word = 0; word < words; word++) {
    planes[into + word] = planes[leftOne + word] & planes[rightOne + word];
    planes[into + words + word] = planes[leftZero + word] | planes[rightZero + word];
    planes[into + 2 * words + word] = planes[leftMoved + word] | planes[rightMoved + word];
  }
}

function runChoice(planes: Int32Array, into: number, { a, b, c }: Cone, place: number, words: number): void {
  const selectOne = oneAt(a[place], words);
  const selectZero = zeroAt(a[place], words);
  const selectMoved = movedAt(a[place], words);
  const oneOne = oneAt(b[place], words);
  const oneZero = zeroAt(b[place], words);
  const oneMoved = movedAt(b[place], words);
  const zeroOne = oneAt(c[place], words);
  const zeroZero = zeroAt(c[place], words);
  const zeroMoved = movedAt(c[place], words);
  for (let word = 0; word < words; word++) {
    const one = planes[selectOne + word];
    const zero = planes[selectZero + word];
    planes[into + word] = (one & planes[oneOne + word]) | (zero & planes[zeroOne + word]);
    planes[into + words + word] = (one & planes[oneZero + word]) | (zero & planes[zeroZero + word]);
    planes[into + 2 * words + word] = planes[selectMoved + word] | planes[oneMoved + word] | planes[zeroMoved + word];
  }
}

function runMark(
  planes: Int32Array,
  into: number,
  inner: number,
  { marks, words }: Pick<LaneTask, 'marks' | 'words'>,
): void {
  const one = oneAt(inner, words);
  const zero = zeroAt(inner, words);
  const moved = movedAt(inner, words);
  for (let word = 0; word < words; word++) {
    const blur = marks === 'pass' ? 0 : planes[moved + word];
    planes[into + word] = planes[one + word] | blur;
    planes[into + words + word] = planes[zero + word] | blur;
    planes[into + 2 * words + word] = planes[moved + word];
  }
}
