// Functions compiled to run for many settings at once: two-valued, 32 lanes to a word, one pass over columns. What lanes
// stand for is the caller's; it fills the words of the variables first.

import { coneOfLiterals, GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

export interface Program {
  readonly count: number;
  readonly kind: Uint8Array;
  /** Operands of each gate as 2 × place + inverted, by place in the program. */
  readonly operands: Int32Array;
  /** Where each variable's word is filled. */
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

/** 32 lanes: the program's places from `base` on, one word each; those of variables are filled, all others are written. */
export function runProgram({ count, kind, operands }: Program, words: Int32Array, base: number): void {
  const read = (operand: number): number => words[base + (operand >>> 1)] ^ -(operand & 1);
  for (let place = 0; place < count; place++) {
    const first = 3 * place;
    switch (kind[place]) {
      case GateKind.variable:
        break;
      case GateKind.and:
        words[base + place] = read(operands[first]) & read(operands[first + 1]);
        break;
      case GateKind.choose: {
        const select = read(operands[first]);
        words[base + place] = (select & read(operands[first + 1])) | (~select & read(operands[first + 2]));
        break;
      }
      case GateKind.mark:
        words[base + place] = read(operands[first]);
        break;
      default:
        words[base + place] = 0;
    }
  }
}
