// Bitwise gates by the four-state tables of IEEE 1364-2005 5.1.10 (Tables 5-12 to 5-16) and, alike, of the primitives
// in 7.2 and 7.3. z as an input acts as x. Operands of one width, at least one.

import { type Bits, fromLimbs, fromPlanes } from './four-state';

export function bitwiseNot(value: Bits): Bits {
  if (value.width <= 32) return fromPlanes(value.width, ~value.a[0] | value.b[0], value.b[0]);
  const a = new Uint32Array(value.a.length);
  for (let limb = 0; limb < a.length; limb++) a[limb] = ~value.a[limb] | value.b[limb];
  return fromLimbs(value.width, a, value.b);
}

/** A buffer passes 0 and 1; x and z come out as x (7.3, Table 7-4). */
export function buffer(value: Bits): Bits {
  if (value.width <= 32) return fromPlanes(value.width, value.a[0] | value.b[0], value.b[0]);
  const a = new Uint32Array(value.a.length);
  for (let limb = 0; limb < a.length; limb++) a[limb] = value.a[limb] | value.b[limb];
  return fromLimbs(value.width, a, value.b);
}

/** 0 where some operand is 0, 1 where all are 1, else x. */
export function bitwiseAnd(operands: readonly Bits[]): Bits {
  const { width } = operands[0];
  if (width <= 32) {
    const notZero = ~zerosOf(operands, 0);
    return fromPlanes(width, notZero, notZero & ~allOnes(operands, 0));
  }
  const a = new Uint32Array(operands[0].a.length);
  const b = new Uint32Array(a.length);
  for (let limb = 0; limb < a.length; limb++) {
    a[limb] = ~zerosOf(operands, limb);
    b[limb] = a[limb] & ~allOnes(operands, limb);
  }
  return fromLimbs(width, a, b);
}

/** 1 where some operand is 1, 0 where all are 0, else x. */
export function bitwiseOr(operands: readonly Bits[]): Bits {
  const { width } = operands[0];
  if (width <= 32) {
    const high = anyPlane(operands, 0);
    return fromPlanes(width, high, high & ~onesOf(operands, 0));
  }
  const a = new Uint32Array(operands[0].a.length);
  const b = new Uint32Array(a.length);
  for (let limb = 0; limb < a.length; limb++) {
    a[limb] = anyPlane(operands, limb);
    b[limb] = a[limb] & ~onesOf(operands, limb);
  }
  return fromLimbs(width, a, b);
}

/** x where any operand is unknown, else the parity. */
export function bitwiseXor(operands: readonly Bits[]): Bits {
  const { width } = operands[0];
  if (width <= 32) {
    const unknown = unknownOf(operands, 0);
    return fromPlanes(width, parityOf(operands, 0) | unknown, unknown);
  }
  const a = new Uint32Array(operands[0].a.length);
  const b = new Uint32Array(a.length);
  for (let limb = 0; limb < a.length; limb++) {
    b[limb] = unknownOf(operands, limb);
    a[limb] = parityOf(operands, limb) | b[limb];
  }
  return fromLimbs(width, a, b);
}

/** Where some operand is a known 0. */
function zerosOf(operands: readonly Bits[], limb: number): number {
  let zeros = 0;
  for (let index = 0; index < operands.length; index++) zeros |= ~(operands[index].a[limb] | operands[index].b[limb]);
  return zeros;
}

/** Where every operand is a known 1. */
function allOnes(operands: readonly Bits[], limb: number): number {
  let all = -1;
  for (let index = 0; index < operands.length; index++) all &= operands[index].a[limb] & ~operands[index].b[limb];
  return all;
}

/** Where some operand is a known 1. */
function onesOf(operands: readonly Bits[], limb: number): number {
  let some = 0;
  for (let index = 0; index < operands.length; index++) some |= operands[index].a[limb] & ~operands[index].b[limb];
  return some;
}

/** Where some operand is not a known 0. */
function anyPlane(operands: readonly Bits[], limb: number): number {
  let some = 0;
  for (let index = 0; index < operands.length; index++) some |= operands[index].a[limb] | operands[index].b[limb];
  return some;
}

function unknownOf(operands: readonly Bits[], limb: number): number {
  let some = 0;
  for (let index = 0; index < operands.length; index++) some |= operands[index].b[limb];
  return some;
}

function parityOf(operands: readonly Bits[], limb: number): number {
  let parity = 0;
  for (let index = 0; index < operands.length; index++) parity ^= operands[index].a[limb];
  return parity;
}
