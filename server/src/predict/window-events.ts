// Instants of a run whose delays are only known as triples, each with its earliest and latest time and the instant that
// all ways to it lead through: so the distance of two is taken from where their ways part, and what both share cancels
// (definitions 21 and 29). Times in ps from the start of the run. What happens below the fork on several ways at once is
// taken as independent: a distance is then containing.

export interface EventForest {
  /** Earliest and latest, by event. Event 0 is the start of the run. */
  readonly min: number[];
  readonly max: number[];
  readonly parent: number[];
  readonly depth: number[];
  /** An ancestor further up: a way of n steps is walked in about log n. */
  readonly jump: number[];
}

export interface Distance {
  readonly min: number;
  readonly max: number;
}

export function createEvents(): EventForest {
  return { min: [0], max: [0], parent: [0], depth: [0], jump: [0] };
}

/** A further event, reached only through `parent`. */
export function addEvent(forest: EventForest, parent: number, min: number, max: number): number {
  const { depth, jump } = forest;
  const over = jump[parent];
  const isEven = depth[parent] - depth[over] === depth[over] - depth[jump[over]];
  depth.push(depth[parent] + 1);
  jump.push(isEven ? jump[over] : parent);
  forest.parent.push(parent);
  forest.min.push(min);
  return forest.max.push(max) - 1;
}

/** The last event that the ways to both lead through. */
export function forkOf({ depth, jump, parent }: EventForest, left: number, right: number): number {
  let [deep, other] = depth[left] < depth[right] ? [right, left] : [left, right];
  while (depth[deep] > depth[other]) deep = depth[jump[deep]] >= depth[other] ? jump[deep] : parent[deep];
  while (deep !== other) {
    const apart = jump[deep] !== jump[other];
    deep = apart ? jump[deep] : parent[deep];
    other = apart ? jump[other] : parent[other];
  }
  return deep;
}

export function forkOfAll(forest: EventForest, events: readonly number[]): number {
  return events.reduce((fork, event) => forkOf(forest, fork, event));
}

/** How long after `from` the event `to` comes, counted from their fork. */
export function distanceOf(forest: EventForest, from: number, to: number): Distance {
  const { max, min } = forest;
  const fork = forkOf(forest, from, to);
  const shared = { min: min[fork], max: max[fork] };
  return {
    min: min[to] - shared.min - (max[from] - shared.max),
    max: max[to] - shared.max - (min[from] - shared.min),
  };
}

/** Whether one comes first whatever the delays are: by its times, or because the other follows from it. */
export function isBefore(forest: EventForest, first: number, second: number): boolean {
  if (first === second) return false;
  if (forest.max[first] < forest.min[second]) return true;
  return forkOf(forest, first, second) === first || distanceOf(forest, first, second).min > 0;
}
