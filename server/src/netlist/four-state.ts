// Four-state values of any width, IEEE 1364-2005 clause 4.1: 0, 1, x, z. Two bit planes in 32-bit limbs, least
// significant limb first: 0 = (a 0, b 0), 1 = (1, 0), z = (0, 1), x = (1, 1). Bits above the width are 0 in both planes.
// Values are never changed after they are made.

export interface Bits {
  readonly width: number;
  readonly a: Uint32Array;
  readonly b: Uint32Array;
}

export type Digit = '0' | '1' | 'x' | 'z';
