// Tries a function for many values of its bits at once: 32 lanes to a word, and per literal three planes: may be 1, may
// be 0, and has heard a change. A mark (an operator of unknown structure) that has heard a change may be either.

import { impossible } from '../text/impossible';
import { GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

export interface Planes {
  readonly mayBeOne: Int32Array;
  readonly mayBeZero: Int32Array;
  readonly moved: Int32Array;
}

export function createPlanes(words: number): Planes {
  return { mayBeOne: new Int32Array(words), mayBeZero: new Int32Array(words), moved: new Int32Array(words) };
}

export interface LaneTask {
  readonly gates: Gates;
  /** Gates to go through, operands first. */
  readonly cone: readonly number[];
  readonly words: number;
  /** What each variable of the cone is in every lane. */
  readonly variable: (variable: number) => Planes;
  /** Marks pass their operand, or are unknown wherever it has heard a change. */
  readonly marks: 'pass' | 'blur';
}

/** The planes of every literal of the cone. */
export function runLanes(task: LaneTask): (literal: Literal) => Planes {
  const planes = new Map<number, Planes>();
  const read = (literal: Literal): Planes => {
    const found = planes.get(gateOf(literal)) ?? impossible('an operand outside the cone');
    return (literal & 1) === 0 ? found : { mayBeOne: found.mayBeZero, mayBeZero: found.mayBeOne, moved: found.moved };
  };
  for (const gate of task.cone) planes.set(gate, planesOf(task, gate, read));
  return read;
}

function planesOf(task: LaneTask, gate: number, read: (literal: Literal) => Planes): Planes {
  const { kind, a, b, c } = task.gates;
  switch (kind[gate]) {
    case GateKind.variable:
      return task.variable(a[gate]);
    case GateKind.and:
      return andOf(read(a[gate]), read(b[gate]), task.words);
    case GateKind.choose:
      return choiceOf(read(a[gate]), read(b[gate]), read(c[gate]), task.words);
    case GateKind.mark:
      return task.marks === 'pass' ? read(a[gate]) : blurred(read(a[gate]), task.words);
    default:
      return constantPlanes(task.words, kind[gate] === GateKind.unknown);
  }
}

function constantPlanes(words: number, isUnknown: boolean): Planes {
  const planes = createPlanes(words);
  planes.mayBeZero.fill(-1);
  if (isUnknown) planes.mayBeOne.fill(-1);
  return planes;
}

function andOf(left: Planes, right: Planes, words: number): Planes {
  const planes = createPlanes(words);
  for (let word = 0; word < words; word++) {
    planes.mayBeOne[word] = left.mayBeOne[word] & right.mayBeOne[word];
    planes.mayBeZero[word] = left.mayBeZero[word] | right.mayBeZero[word];
    planes.moved[word] = left.moved[word] | right.moved[word];
  }
  return planes;
}

function choiceOf(select: Planes, whenOne: Planes, whenZero: Planes, words: number): Planes {
  const planes = createPlanes(words);
  for (let word = 0; word < words; word++) {
    const one = select.mayBeOne[word];
    const zero = select.mayBeZero[word];
    planes.mayBeOne[word] = (one & whenOne.mayBeOne[word]) | (zero & whenZero.mayBeOne[word]);
    planes.mayBeZero[word] = (one & whenOne.mayBeZero[word]) | (zero & whenZero.mayBeZero[word]);
    planes.moved[word] = select.moved[word] | whenOne.moved[word] | whenZero.moved[word];
  }
  return planes;
}

function blurred(inner: Planes, words: number): Planes {
  const planes = createPlanes(words);
  for (let word = 0; word < words; word++) {
    planes.mayBeOne[word] = inner.mayBeOne[word] | inner.moved[word];
    planes.mayBeZero[word] = inner.mayBeZero[word] | inner.moved[word];
    planes.moved[word] = inner.moved[word];
  }
  return planes;
}
