// Single-bit logic as a graph of few kinds of gates, so that a function can be tried for many values of its bits at
// once. A literal is 2 × gate, plus 1 for its inverse. Gates are shared: asking twice gives the same one. Operands have
// lower numbers than their gate. Unknown values follow the tables of IEEE 1364-2005 5.1.10 and 5.1.13.

export type Literal = number;

export const GateKind = {
  /** Always 0. */
  zero: 0,
  /** May be either, at any time: x. */
  unknown: 1,
  /** a = number of the variable. */
  variable: 2,
  and: 3,
  /** a ? b : c */
  choose: 4,
  /** Passes a, which comes out of an operator of unknown structure (definition 24). */
  mark: 5,
} as const;

export interface Gates {
  readonly kind: number[];
  readonly a: number[];
  readonly b: number[];
  readonly c: number[];
  /** Gate + 1 at the slot that its kind and operands lead to or the first free one behind; 0 = free. */
  slots: Int32Array;
}

export const zeroLiteral: Literal = 0;
export const oneLiteral: Literal = 1;
export const unknownLiteral: Literal = 2;

export function createGates(): Gates {
  const gates: Gates = { kind: [], a: [], b: [], c: [], slots: new Int32Array(slotsAtFirst) };
  add(gates, GateKind.zero, 0, 0, 0);
  add(gates, GateKind.unknown, 0, 0, 0);
  return gates;
}

export function variableOf(gates: Gates, variable: number): Literal {
  return shared(gates, GateKind.variable, variable, 0, 0);
}

/** x stays x: it has no inverse of its own, so that nothing is concluded from x and ~x meeting. */
export function not(literal: Literal): Literal {
  return literal === unknownLiteral ? literal : literal ^ 1;
}

export function and(gates: Gates, left: Literal, right: Literal): Literal {
  if (left > right) return and(gates, right, left);
  if (left === zeroLiteral) return zeroLiteral;
  if (left === oneLiteral || left === right) return right;
  if (left === not(right)) return zeroLiteral;
  return shared(gates, GateKind.and, left, right, 0);
}

export function or(gates: Gates, left: Literal, right: Literal): Literal {
  return not(and(gates, not(left), not(right)));
}

export function xor(gates: Gates, left: Literal, right: Literal): Literal {
  return choose(gates, left, not(right), right);
}

export function choose(gates: Gates, select: Literal, whenOne: Literal, whenZero: Literal): Literal {
  if (select === oneLiteral || whenOne === whenZero) return whenOne;
  if (select === zeroLiteral) return whenZero;
  if ((select & 1) === 1) return choose(gates, not(select), whenZero, whenOne);
  if (whenOne === oneLiteral) return or(gates, select, whenZero);
  if (whenOne === zeroLiteral) return and(gates, not(select), whenZero);
  if (whenZero === zeroLiteral) return and(gates, select, whenOne);
  if (whenZero === oneLiteral) return or(gates, not(select), whenOne);
  return shared(gates, GateKind.choose, select, whenOne, whenZero);
}

export function mark(gates: Gates, literal: Literal): Literal {
  return literal <= unknownLiteral ? literal : shared(gates, GateKind.mark, literal, 0, 0);
}

export function gateOf(literal: Literal): number {
  return literal >>> 1;
}

/** The literals that a gate reads. */
export function operandsOfGate(gates: Gates, gate: number): readonly Literal[] {
  switch (gates.kind[gate]) {
    case GateKind.and:
      return [gates.a[gate], gates.b[gate]];
    case GateKind.choose:
      return [gates.a[gate], gates.b[gate], gates.c[gate]];
    case GateKind.mark:
      return [gates.a[gate]];
    default:
      return [];
  }
}

/** Every gate that these literals hang on, in ascending order: operands first. */
export function coneOfLiterals(gates: Gates, literals: readonly Literal[]): number[] {
  const inside = new Set<number>();
  const waiting = literals.map(gateOf);
  for (let gate = waiting.pop(); gate !== undefined; gate = waiting.pop()) {
    if (inside.has(gate)) continue;
    inside.add(gate);
    for (const operand of operandsOfGate(gates, gate)) waiting.push(gateOf(operand));
  }
  return [...inside].sort((left, right) => left - right);
}

/** The variables among the gates of a cone, ascending. */
export function variablesOfCone(gates: Gates, cone: readonly number[]): number[] {
  const found = cone.filter((gate) => gates.kind[gate] === GateKind.variable).map((gate) => gates.a[gate]);
  return found.sort((left, right) => left - right);
}

/** A literal of one graph in another, its variables replaced. `cone`: its gates, operands first. */
export function rebuilt(
  from: Gates,
  into: Gates,
  { cone, literal }: { readonly cone: readonly number[]; readonly literal: Literal },
  replace: (variable: number) => Literal,
): Literal {
  const made = new Map<number, Literal>();
  const read = (operand: Literal): Literal => {
    const found = made.get(gateOf(operand)) ?? unknownLiteral;
    return (operand & 1) === 0 ? found : not(found);
  };
  for (const gate of cone) {
    const [a, b, c] = [from.a[gate], from.b[gate], from.c[gate]];
    switch (from.kind[gate]) {
      case GateKind.zero:
        made.set(gate, zeroLiteral);
        break;
      case GateKind.variable:
        made.set(gate, replace(a));
        break;
      case GateKind.and:
        made.set(gate, and(into, read(a), read(b)));
        break;
      case GateKind.choose:
        made.set(gate, choose(into, read(a), read(b), read(c)));
        break;
      case GateKind.mark:
        made.set(gate, mark(into, read(a)));
        break;
      default:
        made.set(gate, unknownLiteral);
    }
  }
  return read(literal);
}

const slotsAtFirst = 1024;

function shared(gates: Gates, kind: number, a: number, b: number, c: number): Literal {
  const mask = gates.slots.length - 1;
  let slot = hashOf(kind, a, b, c) & mask;
  for (let gate = gates.slots[slot] - 1; gate >= 0; gate = gates.slots[slot] - 1) {
    if (gates.kind[gate] === kind && gates.a[gate] === a && gates.b[gate] === b && gates.c[gate] === c) return 2 * gate;
    slot = (slot + 1) & mask;
  }
  const literal = add(gates, kind, a, b, c);
  gates.slots[slot] = gateOf(literal) + 1;
  if (2 * gates.kind.length > gates.slots.length) widen(gates);
  return literal;
}

function widen(gates: Gates): void {
  gates.slots = new Int32Array(4 * gates.slots.length);
  const mask = gates.slots.length - 1;
  for (let gate = 0; gate < gates.kind.length; gate++) {
    let slot = hashOf(gates.kind[gate], gates.a[gate], gates.b[gate], gates.c[gate]) & mask;
    while (gates.slots[slot] !== 0) slot = (slot + 1) & mask;
    gates.slots[slot] = gate + 1;
  }
}

/** Any odd factors with bits all over will do. */
function hashOf(kind: number, a: number, b: number, c: number): number {
  let hash = Math.imul(kind + 8 * a, 0x2c1b3c6d);
  hash = Math.imul(hash ^ (hash >>> 15) ^ b, 0x297a2d39);
  hash = Math.imul(hash ^ (hash >>> 15) ^ c, 0x1b56c4e9);
  return hash ^ (hash >>> 14);
}

function add(gates: Gates, kind: number, a: number, b: number, c: number): Literal {
  gates.a.push(a);
  gates.b.push(b);
  gates.c.push(c);
  return 2 * (gates.kind.push(kind) - 1);
}
