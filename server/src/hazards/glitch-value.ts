// The value of one function for one setting of its variables, as a set of what it may be.

import { GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

/** A set of 0 and 1 as bits, and whether a change has been heard. */
export const May = { beZero: 1, beOne: 2, haveMoved: 4 } as const;

export interface Setting {
  /** What a variable may be (`May`). */
  readonly may: (variable: number) => number;
  /** Marks pass their operand, or may be either once it has heard a change. */
  readonly marks: 'pass' | 'blur';
}

/** `cone`: the gates of the literal, operands first. */
export function mayBe(gates: Gates, cone: readonly number[], literal: Literal, setting: Setting): number {
  const found = new Map<number, number>();
  const read = (operand: Literal) => inverted(found.get(gateOf(operand)) ?? 0, operand);
  for (const gate of cone) found.set(gate, gateValue(gates, gate, read, setting));
  return read(literal);
}

/** 0, 1, or null where it may be either. */
export function settledLevel(may: number): 0 | 1 | null {
  const values = may & (May.beZero | May.beOne);
  return values === May.beOne ? 1 : values === May.beZero ? 0 : null;
}

function gateValue(
  { kind, a, b, c }: Gates,
  gate: number,
  read: (operand: Literal) => number,
  setting: Setting,
): number {
  switch (kind[gate]) {
    case GateKind.zero:
      return May.beZero;
    case GateKind.variable:
      return setting.may(a[gate]);
    case GateKind.and:
      return andOf(read(a[gate]), read(b[gate]));
    case GateKind.choose:
      return choiceOf(read(a[gate]), read(b[gate]), read(c[gate]));
    case GateKind.mark:
      return marked(read(a[gate]), setting.marks);
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

function inverted(may: number, literal: Literal): number {
  if ((literal & 1) === 0) return may;
  return ((may & May.beZero) << 1) | ((may & May.beOne) >> 1) | (may & May.haveMoved);
}
