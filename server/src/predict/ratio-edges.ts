// Numbers of edges in ascending order, kept as runs of equal gaps: a clock may rise millions of times in one period.

export interface EdgeRuns {
  readonly runs: { readonly first: number; readonly gap: number; readonly count: number }[];
  count: number;
  /** Whether only the count is kept: there is no list of millions that nobody reads. */
  readonly isCounted: boolean;
}

export function createEdgeRuns(keep: 'edges' | 'count' = 'edges'): EdgeRuns {
  return { runs: [], count: 0, isCounted: keep === 'count' };
}

export function addEdge(edges: EdgeRuns, edge: number): void {
  addEdgeRun(edges, { first: edge, gap: 0, count: 1 });
}

/** `first`, `first + gap`, … all above what is there already. */
export function addEdgeRun(edges: EdgeRuns, run: EdgeRuns['runs'][number]): void {
  if (run.count === 0) return;
  edges.count += run.count;
  if (!edges.isCounted) edges.runs.push(run);
}

/**
 * The gaps between neighbours, the last to the first of the next round included, each with the edge it begins at and
 * how often it comes in a row. `total`: edges in one round.
 */
export function gapsOf(
  { runs }: EdgeRuns,
  total: number,
): { readonly from: number; readonly gap: number; readonly count: number }[] {
  return runs.flatMap(({ first, gap, count }, index) => {
    const last = first + gap * (count - 1);
    const next = index + 1 < runs.length ? runs[index + 1].first : runs[0].first + total;
    const between = { from: last, gap: next - last, count: 1 };
    return count === 1 ? [between] : [{ from: first, gap, count: count - 1 }, between];
  });
}

/** Whether all edges of a round are equally far apart. */
export function areEven(edges: EdgeRuns, total: number): boolean {
  const gaps = gapsOf(edges, total);
  return gaps.every(({ gap }) => gap === gaps[0].gap);
}

/** One by one. */
export function listEdges({ runs }: EdgeRuns): number[] {
  return runs.flatMap(({ first, gap, count }) => Array.from({ length: count }, (_, index) => first + index * gap));
}
