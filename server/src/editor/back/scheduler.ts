// Shares the worker's one thread among stages: the most urgent goes on for a slice of time, then messages are heard, then
// the most urgent is chosen anew. Work that nobody wants any more is dropped by not going on with it. How time passes and
// how a turn is waited for are handed in; nothing else depends on them.

/** Smaller is more urgent. search: what everything else goes before, for it may take very long. */
export const urgencies = { reading: 0, asked: 1, shown: 2, background: 3, search: 4 } as const;

/** On whose account work is done; may grow more urgent while it waits. */
export interface Owner {
  urgency: number;
}

export interface Clockwork {
  /** Milliseconds. */
  now(): number;
  /** Calls back once the messages that wait have been heard. */
  turn(go: () => void): void;
}

export interface Scheduler {
  /** Drives a stage to its end. Rejects with a `Superseded` once its owner was dropped. */
  run<Result>(stage: Generator<void, Result>, owner: Owner): Promise<Result>;
  /** Rejects whatever runs for the owner, and whatever will. */
  drop(owner: Owner): void;
}

/** The work is of no use any more: what it was about has changed. */
export class Superseded extends Error {
  override readonly name = 'Superseded';
}

/** Milliseconds between two looks at the messages. */
const slice = 8;

interface Job {
  readonly owner: Owner;
  /** Goes on for one step; true at the end. */
  step(): boolean;
  reject(error: unknown): void;
}

export function createScheduler({ now, turn }: Clockwork): Scheduler {
  const jobs = new Set<Job>();
  const dropped = new WeakSet<Owner>();
  let isAwake = false;

  function wake(): void {
    if (isAwake || jobs.size === 0) return;
    isAwake = true;
    turn(() => {
      isAwake = false;
      workFor(mostUrgent(jobs));
      wake();
    });
  }

  function workFor(job: Job | null): void {
    if (job === null) return;
    const end = now() + slice;
    try {
      while (!job.step()) if (now() >= end) return;
    } catch (error) {
      job.reject(error);
    }
    jobs.delete(job);
  }

  return {
    run: (stage, owner) =>
      new Promise((resolve, reject) => {
        if (dropped.has(owner)) {
          reject(new Superseded());
          return;
        }
        jobs.add({ owner, reject, step: () => stepOf(stage, resolve) });
        wake();
      }),
    drop(owner) {
      dropped.add(owner);
      for (const job of [...jobs].filter((each) => each.owner === owner)) {
        jobs.delete(job);
        job.reject(new Superseded());
      }
    },
  };
}

function stepOf<Result>(stage: Generator<void, Result>, resolve: (result: Result) => void): boolean {
  const turn = stage.next();
  if (turn.done === true) resolve(turn.value);
  return turn.done === true;
}

/** Of equally urgent ones the oldest. */
function mostUrgent(jobs: ReadonlySet<Job>): Job | null {
  let best: Job | null = null;
  for (const job of jobs) if (best === null || job.owner.urgency < best.owner.urgency) best = job;
  return best;
}
