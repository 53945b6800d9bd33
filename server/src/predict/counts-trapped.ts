// States that the sequence never visits and that never lead back to it: every value of the group is tried, everything
// else as it stands in the sequence, and followed until it meets a state whose end is known.

import { type Bits, fromNumber } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import type { CountEntry } from './counts-entry';
import { offsetsOf, readEntry, readingText } from './counts-entry';
import { rest, setState } from './settled';
import { type Run, stateKey, stepRun } from './settled-run';
import { restoreSnapshot, type Snapshot, takeSnapshot } from './settled-snapshot';

export interface Trapped {
  readonly values: readonly number[];
  /** False where the limit came before every value was followed. */
  readonly explored: boolean;
}

type Fate = 'returns' | 'trapped';

/** `used`: the readings of the sequence. The run stands at a state of the sequence. At most 32 bits. */
export function* findTrapped(
  run: Run,
  entry: CountEntry,
  used: ReadonlySet<string>,
  limit: number,
): Generator<void, Trapped> {
  const home = takeSnapshot(run.machine);
  const fates = new Map<string, Fate>();
  const trapped: number[] = [];
  let stepsLeft = limit;
  for (let value = 0; value < 2 ** entry.width; value++) {
    if (used.has(String(value))) continue;
    place(run, entry, home, value);
    const path: { readonly key: string; readonly reading: string }[] = [];
    const places = new Map<string, number>();
    let key = stateKey(run);
    while (!fates.has(key) && !places.has(key)) {
      if (stepsLeft === 0) return { values: [], explored: false };
      stepsLeft -= 1;
      places.set(key, path.length);
      path.push({ key, reading: readingText(readEntry(run.machine, entry)) });
      stepRun(run, () => {});
      key = stateKey(run);
      if (stepsLeft % 256 === 0) yield;
    }
    const loop = path.slice(places.get(key) ?? path.length);
    const fate = fates.get(key) ?? (loop.every(({ reading }) => used.has(reading)) ? 'returns' : 'trapped');
    for (const { key: passed } of path) fates.set(passed, fate);
    if (fate === 'trapped') trapped.push(value);
  }
  restoreSnapshot(run.machine, home);
  return { values: trapped, explored: true };
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

/** Readings as decimal strings; what is unknown is no reading. */
export function usedReadings(readings: readonly Bits[]): ReadonlySet<string> {
  return new Set(readings.map(readingText));
}
