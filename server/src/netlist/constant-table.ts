// Four-state constants stored once each. Equal width and equal digits are the same index.

import { type Bits, equalBits } from './four-state';

export interface ConstantTable {
  readonly constants: readonly Bits[];
  indexOf(value: Bits): number;
}

export function createConstantTable(): ConstantTable {
  const constants: Bits[] = [];
  const byHash = new Map<number, number[]>();
  return {
    constants,
    indexOf(value) {
      const hash = hashOf(value);
      const candidates = byHash.get(hash);
      for (const index of candidates ?? [])
        if (constants[index] === value || equalBits(constants[index], value)) return index;
      constants.push(value);
      if (candidates === undefined) byHash.set(hash, [constants.length - 1]);
      else candidates.push(constants.length - 1);
      return constants.length - 1;
    },
  };
}

function hashOf(value: Bits): number {
  let hash = value.width;
  for (let limb = 0; limb < value.a.length; limb++) {
    hash = Math.imul((hash << 5) ^ (hash >>> 27) ^ value.a[limb], 0x9e3779b1);
    hash = Math.imul((hash << 5) ^ (hash >>> 27) ^ value.b[limb], 0x9e3779b1);
  }
  return hash;
}
