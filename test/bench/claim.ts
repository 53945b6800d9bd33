// What is claimed about speed and size: a candidate, a baseline of the same run, and the share of it that the candidate
// takes at most. Says in one line what was measured and whether the claim holds.

export interface Claim {
  /** What both did: `one trace of 1,000,000 changes, whole run`. */
  readonly subject: string;
  readonly candidate: Figure;
  readonly baseline: Figure;
  /** Largest ratio of candidate to baseline that keeps the claim. */
  readonly bound: number;
}

export interface Figure {
  /** Who it is and what of it: `uPlot's line path`. */
  readonly name: string;
  readonly value: number;
  readonly unit: 'ms' | 'ms per line' | 'us per node' | 'us per register' | 'ns a cycle' | 'ns an event' | 'MB';
}

export function isKept({ baseline, bound, candidate }: Claim): boolean {
  return candidate.value <= bound * baseline.value;
}

export function tellClaim(claim: Claim): string {
  const { baseline, bound, candidate, subject } = claim;
  const ratio = significant(candidate.value / baseline.value);
  const verdict = isKept(claim) ? 'within' : 'MISSED';
  return `${verdict}: ${subject}: ${tell(candidate)} against ${tell(baseline)}: ratio ${ratio}, bound ${bound}`;
}

function tell({ name, unit, value }: Figure): string {
  return `${name} ${significant(value)} ${unit}`;
}

function significant(value: number): string {
  return value >= 100 ? value.toFixed(0) : String(Number(value.toPrecision(2)));
}
