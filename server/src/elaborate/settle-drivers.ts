// Once all of a module has been read: which assigned variables are mere temporaries (definition 11), which targets have
// no clock, and what drives signals that only start values or stimulus give a value.

import type { Bits } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import { joined } from './final-slices';
import { joinWrites } from './join-writes';
import { driveHole } from './processes';
import type { BitRange } from './draft-nodes';
import {
  type DriverDraft,
  type LatchDraft,
  type ModuleDraft,
  type ReadLog,
  type RegisterDraft,
  signalAt,
} from './module-draft';
import type { StartValues } from './start-store';

export interface SettledDrivers {
  readonly drivers: readonly DriverDraft[];
  readonly registers: readonly RegisterDraft[];
  readonly latches: readonly LatchDraft[];
}

export function settleDrivers(draft: ModuleDraft, start: StartValues): SettledDrivers {
  const readers = collectReads(draft);
  const isTemporary = (signal: number, process: number, bits: BitRange) =>
    isTemporaryIn(draft, readers, signal, process, bits);
  failUnclocked(draft, isTemporary);
  const failed = new Set(draft.unclocked.map(({ signal, process }) => `${process} ${signal}`));
  const kept = draft.registers.filter(
    (register) =>
      !failed.has(`${register.process} ${register.signal}`) &&
      !isTemporary(register.signal, register.process, register),
  );
  const registers = joinWrites(draft, kept);
  const latches = refuseContents(
    draft,
    draft.latches.filter((latch) => !isTemporary(latch.signal, latch.process, latch)),
  );
  const drivers = dropSharedTemporaries(draft, isTemporary);
  const all = [...drivers, ...registers.map(registerDriver), ...latches.map(latchDriver)];
  return { drivers: [...all, ...startOnly(draft, start, all)], registers, latches };
}

/** A memory kept as one content has no latches. */
function refuseContents(draft: ModuleDraft, latches: readonly LatchDraft[]): readonly LatchDraft[] {
  const contents = new Set(draft.arrays.flatMap(({ array: { memory } }) => memory?.signal.index ?? []));
  return latches.filter(({ at, process, signal }) => {
    if (!contents.has(signal)) return true;
    const complaint = draft.log.add(
      'memory-without-clock',
      { name: signalAt(draft, signal).name },
      draft.source.place(at),
    );
    driveHole(draft, draft.processes[process], signal, at, complaint);
    return false;
  });
}

type IsTemporary = (signal: number, process: number, bits: BitRange) => boolean;

function collectReads(draft: ModuleDraft): ReadonlyMap<number, BitRange[]> {
  const bySignal = new Map<number, BitRange[]>();
  const logs: readonly ReadLog[] = [...draft.processes, draft.otherReads];
  for (const { reads } of logs) {
    for (const read of reads) {
      const list = bySignal.get(read.signal);
      if (list === undefined) bySignal.set(read.signal, [read]);
      else list.push(read);
    }
  }
  return bySignal;
}

/** Blocking alone, read by its own process after it was assigned there, and by nobody before or elsewhere. */
function isTemporaryIn(
  draft: ModuleDraft,
  readers: ReadonlyMap<number, BitRange[]>,
  signal: number,
  process: number,
  bits: BitRange,
): boolean {
  const { port, isPrivate } = signalAt(draft, signal);
  if (isPrivate) return true;
  if (port === 'output' || port === 'inout') return false;
  const { innerReads, assignments } = draft.processes[process];
  if (!innerReads.has(signal)) return false;
  if (assignments.some((assignment) => assignment.signal === signal && !assignment.blocking)) return false;
  return !(readers.get(signal) ?? []).some(({ low, width }) => low < bits.low + bits.width && bits.low < low + width);
}

/** A target that no rule gives a clock is unknown, unless nobody needs it to be kept. */
function failUnclocked(draft: ModuleDraft, isTemporary: IsTemporary): void {
  const failed = new Set<string>();
  for (const { signal, process, failure } of draft.unclocked) {
    const whole = { low: 0, width: signalAt(draft, signal).shape.width };
    if (isTemporary(signal, process, whole)) continue;
    const complaint = draft.log.add(failure.reason, failure.args, draft.source.place(failure.at));
    const key = `${process} ${signal}`;
    if (failed.has(key)) continue;
    failed.add(key);
    const owner = draft.processes[process];
    if (
      !draft.registers.some((register) => register.process === process && !failed.has(`${process} ${register.signal}`))
    ) {
      owner.kind = 'unreadable';
    }
    driveHole(draft, owner, signal, failure.at, complaint);
  }
}

/** A loop variable that several processes use for themselves has no value worth a name. */
function dropSharedTemporaries(draft: ModuleDraft, isTemporary: IsTemporary): DriverDraft[] {
  const counts = new Map<number, Set<number | null>>();
  for (const { signal, process } of draft.drivers) {
    const processes = counts.get(signal) ?? new Set();
    counts.set(signal, processes.add(process));
  }
  for (const { signal, process } of [...draft.registers, ...draft.latches]) {
    const processes = counts.get(signal) ?? new Set();
    counts.set(signal, processes.add(process));
  }
  return draft.drivers.filter(
    (driver) =>
      driver.isContinuous ||
      driver.process === null ||
      (counts.get(driver.signal)?.size ?? 0) < 2 ||
      !isTemporary(driver.signal, driver.process, driver),
  );
}

function registerDriver(register: RegisterDraft): DriverDraft {
  const { signal, low, width, process, sampleAt } = register;
  const value = { kind: 'register', register } as const;
  return { signal, low, width, value, process, at: sampleAt, canRelease: false, isContinuous: false };
}

function latchDriver(latch: LatchDraft): DriverDraft {
  const { signal, low, width, process, at } = latch;
  return { signal, low, width, value: { kind: 'latch', latch }, process, at, canRelease: false, isContinuous: false };
}

/** Bits that only a start value sets keep it; those that only stimulus drives are unknown, and said. */
function startOnly(draft: ModuleDraft, start: StartValues, drivers: readonly DriverDraft[]): DriverDraft[] {
  const taken = takenBits(draft, drivers);
  const stimulated = new Map(draft.stimulated.map((entry) => [entry.signal, entry] as const));
  return draft.signals.flatMap((signal) => {
    // What other modules may drive of an interface keeps no start value here.
    if (signal.shape.kind !== 'variable' || signal.port === 'input' || signal.port === 'inout') return [];
    const gaps = gapsIn(signal.shape.width, taken.get(signal.index) ?? []);
    const entry = stimulated.get(signal.index);
    return gaps.flatMap((gap) => {
      if (entry !== undefined) return [stimulatedDriver(draft, entry, gap)];
      const at = start.placeOf(signal);
      return at === null ? [] : [startDriver(draft, signal.index, gap, start.startOf(signal), at)];
    });
  });
}

/** What is driven, or assigned by a process of the circuit (a temporary keeps no start value). By signal. */
function takenBits(draft: ModuleDraft, drivers: readonly DriverDraft[]): ReadonlyMap<number, BitRange[]> {
  const bySignal = new Map<number, BitRange[]>();
  const assigned = draft.processes.flatMap(({ flavor, assignments }) => (flavor === 'initial' ? [] : assignments));
  for (const { signal, low, width } of [...drivers, ...assigned]) {
    const list = bySignal.get(signal);
    if (list === undefined) bySignal.set(signal, [{ low, width }]);
    else list.push({ low, width });
  }
  return bySignal;
}

function gapsIn(width: number, taken: readonly BitRange[]): BitRange[] {
  const gaps: BitRange[] = [];
  let done = 0;
  for (const range of [...joined(taken), { low: width, width: 0 }]) {
    if (range.low > done) gaps.push({ low: done, width: range.low - done });
    done = range.low + range.width;
  }
  return gaps;
}

function stimulatedDriver(
  draft: ModuleDraft,
  { signal, process, at }: ModuleDraft['stimulated'][number],
  { low, width }: BitRange,
): DriverDraft {
  const place = draft.source.place(at);
  const complaint = draft.log.add('stimulus-only', { name: signalAt(draft, signal).name }, place);
  const node = draft.nodes.add(Op.hole, width, [], complaint, place);
  const value = { kind: 'node', node } as const;
  return { signal, low, width, value, process, at, canRelease: false, isContinuous: false };
}

function startDriver(draft: ModuleDraft, signal: number, { low, width }: BitRange, start: Bits, at: At): DriverDraft {
  const node = draft.nodes.constant(slice(start, low, width), draft.source.place(at));
  const value = { kind: 'node', node } as const;
  return { signal, low, width, value, process: null, at, canRelease: false, isContinuous: false };
}
