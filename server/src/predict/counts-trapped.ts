// States that the sequence never visits and that never lead back to it: every value of the group is tried, everything
// else as it stands in the sequence, and followed until it meets a state whose end is known.

import { fromNumber } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import type { CountEntry } from './counts-entry';
import { offsetsOf, type Reading, readEntry } from './counts-entry';
import { rest, setState } from './settled';
import { type Run, stateKey, stepRun } from './settled-run';
import type { StateKey } from './settled-seen';
import { restoreSnapshot, type Snapshot, takeSnapshot } from './settled-snapshot';

export interface Trapped {
  /** Decimal, ascending. */
  readonly trapped: readonly string[];
  /** False where the limit came before every value was followed. */
  readonly explored: boolean;
}

type Fate = 'returns' | 'trapped';

/** `used`: the readings of the sequence. The run stands at a state of the sequence. At most 32 bits. */
export function* findTrapped(
  run: Run,
  entry: CountEntry,
  used: ReadonlySet<Reading>,
  limit: number,
): Generator<void, Trapped> {
  const home = takeSnapshot(run.machine);
  const fates = new Map<StateKey, Fate>();
  const trapped: string[] = [];
  let stepsLeft = limit;
  for (let value = 0; value < 2 ** entry.width; value++) {
    if (used.has(BigInt(value))) continue;
    place(run, entry, home, value);
    const path = yield* followUnused(run, entry, fates, stepsLeft);
    stepsLeft -= path.length;
    if (stepsLeft < 0) return { trapped: [], explored: false };
    const end = stateKey(run);
    const loop = path.slice(path.findIndex(({ key }) => key === end));
    const fate = fates.get(end) ?? (loop.every(({ reading }) => used.has(reading)) ? 'returns' : 'trapped');
    for (const { key } of path) fates.set(key, fate);
    if (fate === 'trapped') trapped.push(String(value));
  }
  restoreSnapshot(run.machine, home);
  return { trapped, explored: true };
}

/** The states from here on until one comes again or its fate is known; one more than `limit` where neither comes. */
function* followUnused(run: Run, entry: CountEntry, fates: ReadonlyMap<StateKey, Fate>, limit: number) {
  const path: { readonly key: StateKey; readonly reading: Reading }[] = [];
  const passed = new Set<StateKey>();
  for (let key = stateKey(run); !fates.has(key) && !passed.has(key) && path.length <= limit; key = stateKey(run)) {
    passed.add(key);
    path.push({ key, reading: readEntry(run.machine, entry) });
    stepRun(run, () => {});
    if (path.length % 256 === 0) yield;
  }
  return path;
}

function place(run: Run, entry: CountEntry, home: Snapshot, value: number): void {
  const { machine } = run;
  const { netlist } = machine.plan;
  restoreSnapshot(machine, home);
  const whole = fromNumber(entry.width, value);
  for (const [id, offset] of offsetsOf(netlist, entry)) {
    const { node, width } = netlist.registers[id];
    setState(machine, node, slice(whole, offset, width));
  }
  rest(machine);
}
