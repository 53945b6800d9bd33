// How rarely a synchronizer fails to settle: MTBF = e^(t / τ) / (T0 · f · a), as textbooks have it (Wakerly, Digital Design,
// 3rd ed., section 8.9; Ginosar, Metastability and Synchronizers, IEEE Design & Test 2011). In logarithms, since the figure
// itself leaves the range of numbers. τ and T0 are a part's own: where its delay set does not state them there is none.

/** All in seconds and per second. */
export interface SynchronizerFigures {
  /** Time that it has to settle. */
  readonly resolution: number;
  readonly tau: number;
  /** T0, the window in which a change makes it undecided. */
  readonly window: number;
  readonly clockHertz: number;
  readonly changesPerSecond: number;
}

/** Decimal logarithm of the mean time between failures in seconds; null where it cannot fail or the figures say nothing. */
export function mtbfLog10Seconds(figures: SynchronizerFigures): number | null {
  const { changesPerSecond, clockHertz, resolution, tau, window } = figures;
  if (tau <= 0 || window <= 0 || clockHertz <= 0 || changesPerSecond <= 0) return null;
  return (resolution / tau) * Math.LOG10E - Math.log10(window * clockHertz * changesPerSecond);
}
