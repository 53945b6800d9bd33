// Functions compiled to run for many settings at once: two-valued, 32 lanes to a word, one pass over columns. What lanes
// stand for is the caller's; it fills the planes of the variables first.

import { coneOfLiterals, GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

export interface Program {
  readonly count: number;
  readonly kind: Uint8Array;
  /** Operands of each gate as 2 × place + inverted, by place in the program. */
  readonly operands: Int32Array;
  /** Where each variable's plane is filled. */
  readonly loads: readonly { readonly variable: number; readonly place: number }[];
  /** What was asked for, as 2 × place + inverted. */
  readonly results: Int32Array;
}

/** Null where something in it is unknown: two values are not enough then. */
export function compileProgram(gates: Gates, wanted: readonly Literal[]): Program | null {
  const cone = coneOfLiterals(gates, wanted);
  if (cone.some((gate) => gates.kind[gate] === GateKind.unknown)) return null;
  const placeOf = new Map(cone.map((gate, place) => [gate, place]));
  const placed = (literal: Literal): number => 2 * (placeOf.get(gateOf(literal)) ?? 0) + (literal & 1);
  const operands = new Int32Array(3 * cone.length);
  cone.forEach((gate, place) => {
    if (gates.kind[gate] === GateKind.variable) return;
    [gates.a[gate], gates.b[gate], gates.c[gate]].forEach((literal, index) => {
      operands[3 * place + index] = placed(literal);
    });
  });
  return {
    count: cone.length,
    kind: Uint8Array.from(cone, (gate) => gates.kind[gate]),
    operands,
    loads: cone.flatMap((gate, place) =>
      gates.kind[gate] === GateKind.variable ? [{ variable: gates.a[gate], place }] : [],
    ),
    results: Int32Array.from(wanted, placed),
  };
}

/** `planes`: `words` words for each place; those of variables are filled, all others are written. */
export function runProgram({ count, kind, operands }: Program, planes: Int32Array, words: number): void {
  for (let place = 0; place < count; place++) {
    const into = place * words;
    const first = (operands[3 * place] >>> 1) * words;
    const flipFirst = -(operands[3 * place] & 1);
    switch (kind[place]) {
      case GateKind.variable:
        break;
      case GateKind.and:
        runAnd(planes, words, into, first, flipFirst, operands[3 * place + 1]);
        break;
      case GateKind.choose:
        runChoice(planes, words, into, first, flipFirst, operands[3 * place + 1], operands[3 * place + 2]);
        break;
      case GateKind.mark:
        for (let word = 0; word < words; word++) planes[into + word] = planes[first + word] ^ flipFirst;
        break;
      default:
        planes.fill(0, into, into + words);
    }
  }
}

function runAnd(
  planes: Int32Array,
  words: number,
  into: number,
  first: number,
  flipFirst: number,
  operand: number,
): void {
  const second = (operand >>> 1) * words;
  const flip = -(operand & 1);
  for (let word = 0; word < words; word++) {
    planes[into + word] = (planes[first + word] ^ flipFirst) & (planes[second + word] ^ flip);
  }
}

function runChoice(
  planes: Int32Array,
  words: number,
  into: number,
  select: number,
  flipSelect: number,
  whenOne: number,
  whenZero: number,
): void {
  const one = (whenOne >>> 1) * words;
  const zero = (whenZero >>> 1) * words;
  const flipOne = -(whenOne & 1);
  const flipZero = -(whenZero & 1);
  for (let word = 0; word < words; word++) {
    const chosen = planes[select + word] ^ flipSelect;
    planes[into + word] = (chosen & (planes[one + word] ^ flipOne)) | (~chosen & (planes[zero + word] ^ flipZero));
  }
}
