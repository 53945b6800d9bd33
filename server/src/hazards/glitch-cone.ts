// The gates of one function in columns: operands first, and told by their places in the cone, so that going through them
// again and again looks nothing up. What the gates say is not changed.

import { impossible } from '../text/impossible';
import { coneOfLiterals, GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

export interface Cone {
  /** By place. */
  readonly kind: Uint8Array;
  /** Operands as 2 × place, plus 1 for the inverse; of a variable its number. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly c: Int32Array;
  /** The function, written as operands are. */
  readonly result: number;
  readonly hasMarks: boolean;
}

/** `gatesOfCone`: the gates of the literal, operands first, where they are known already. */
export function createCone(
  gates: Gates,
  literal: Literal,
  gatesOfCone: readonly number[] = coneOfLiterals(gates, [literal]),
): Cone {
  const places = new Map(gatesOfCone.map((gate, place) => [gate, place]));
  const placed = (operand: Literal): number =>
    2 * (places.get(gateOf(operand)) ?? impossible('an operand outside the cone')) + (operand & 1);
  const kind = Uint8Array.from(gatesOfCone, (gate) => gates.kind[gate]);
  const operands = (of: readonly number[], kinds: readonly number[]): Int32Array =>
    Int32Array.from(gatesOfCone, (gate) => (kinds.includes(gates.kind[gate]) ? placed(of[gate]) : of[gate]));
  return {
    kind,
    a: operands(gates.a, [GateKind.and, GateKind.choose, GateKind.mark]),
    b: operands(gates.b, [GateKind.and, GateKind.choose]),
    c: operands(gates.c, [GateKind.choose]),
    result: placed(literal),
    hasMarks: kind.includes(GateKind.mark),
  };
}
