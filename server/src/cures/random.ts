// Levels for trying what is too much to try whole: the same in every run.

/** A generator of 32 bits after Marsaglia, Xorshift RNGs, 2003. */
export function createRandom(): () => boolean {
  let state = 0x2545f491;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state & 0x10000) !== 0;
  };
}
