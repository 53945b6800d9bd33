// The value of one function for one setting of its variables, as a set of what it may be.

import type { Cone } from './glitch-cone';
import { GateKind } from './glitch-gates';

/** A set of 0 and 1 as bits, and whether a change has been heard. */
export const May = { beZero: 1, beOne: 2, haveMoved: 4 } as const;

export interface Setting {
  /** What a variable may be (`May`). */
  readonly may: (variable: number) => number;
  /** Marks pass their operand, or may be either once it has heard a change. */
  readonly marks: 'pass' | 'blur';
}

export function mayBe(cone: Cone, setting: Setting): number {
  const found = new Uint8Array(cone.kind.length);
  for (let place = 0; place < found.length; place++) found[place] = gateValue(cone, place, found, setting);
  return read(found, cone.result);
}

/** 0, 1, or null where it may be either. */
export function settledLevel(may: number): 0 | 1 | null {
  const values = may & (May.beZero | May.beOne);
  return values === May.beOne ? 1 : values === May.beZero ? 0 : null;
}

function gateValue({ kind, a, b, c }: Cone, place: number, found: Uint8Array, setting: Setting): number {
  switch (kind[place]) {
    case GateKind.zero:
      return May.beZero;
    case GateKind.variable:
      return setting.may(a[place]);
    case GateKind.and:
      return andOf(read(found, a[place]), read(found, b[place]));
    case GateKind.choose:
      return choiceOf(read(found, a[place]), read(found, b[place]), read(found, c[place]));
    case GateKind.mark:
      return marked(read(found, a[place]), setting.marks);
    default:
      return May.beZero | May.beOne;
  }
}

function andOf(left: number, right: number): number {
  return (left & right & May.beOne) | ((left | right) & (May.beZero | May.haveMoved));
}

function choiceOf(select: number, whenOne: number, whenZero: number): number {
  const one = (select & May.beOne) !== 0 ? whenOne : 0;
  const zero = (select & May.beZero) !== 0 ? whenZero : 0;
  return ((one | zero) & (May.beZero | May.beOne)) | ((select | whenOne | whenZero) & May.haveMoved);
}

function marked(inner: number, marks: Setting['marks']): number {
  const isBlurred = marks === 'blur' && (inner & May.haveMoved) !== 0;
  return isBlurred ? inner | May.beZero | May.beOne : inner;
}

/** An operand: 2 × place, plus 1 for the inverse. */
function read(found: Uint8Array, operand: number): number {
  const may = found[operand >>> 1];
  if ((operand & 1) === 0) return may;
  return ((may & May.beZero) << 1) | ((may & May.beOne) >> 1) | (may & May.haveMoved);
}
