// Turns planes (one bit of 32 lanes to a word) into packed lanes (32 bits of one lane to a word).

/** `square`: 32 words; bit j of word i becomes bit i of word j. Quarters are exchanged, then their quarters, down to bits. */
export function transpose(square: Int32Array): void {
  let mask = 0x0000ffff;
  for (let half = 16; half > 0; half >>= 1) {
    for (let row = 0; row < 32; row++) {
      if ((row & half) !== 0) continue;
      const moved = ((square[row] >>> half) ^ square[row + half]) & mask;
      square[row] ^= moved << half;
      square[row + half] ^= moved;
    }
    mask ^= mask << (half >> 1);
  }
}
