// What benchmarks share: candidates run in turn within every round, so that what else the machine does meets all alike.
// CPU time, medians, after one round that is not counted.

export type Times<Name extends string> = Readonly<Record<Name, number>>;

/** Median CPU time of each candidate in ms over so many counted rounds. */
export function interleave<Name extends string>(
  rounds: number,
  candidates: Readonly<Record<Name, () => unknown>>,
): Times<Name> {
  const names = Object.keys(candidates) as Name[];
  const times = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (let round = 0; round <= rounds; round++) {
    for (const name of names) {
      const before = process.cpuUsage();
      candidates[name]();
      const { user, system } = process.cpuUsage(before);
      if (round > 0) times[name].push((user + system) / 1_000);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(times[name])])) as Record<Name, number>;
}

export function median(times: readonly number[]): number {
  return [...times].sort((left, right) => left - right)[Math.floor(times.length / 2)];
}

export function ms(time: number): string {
  return `${time.toFixed(1)} ms`;
}

export function ratio(time: number, baseline: number): string {
  return `${(time / baseline).toFixed(2)} x`;
}
