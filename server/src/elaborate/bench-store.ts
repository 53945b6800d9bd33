// The values of a test bench's names while it runs. A variable keeps what was last written to it; a net that one plain
// assignment drives is worked out when it is read; all else, the tested module's outputs above all, lies outside: it reads
// x, and that it has been read is remembered.

import { allX, type Bits, equalBits } from '../netlist/four-state';
import { replaceSlice, slice } from '../netlist/four-state-parts';
import type { Expression } from '../syntax/tables';
import { bitsAlgebra, type Reader } from './algebra';
import { assignedSignals, entityAlong } from './assigned-signals';
import { contextIn } from './constants';
import type { LocalSignal } from './local-signal';
import { lowerTo } from './lower';
import type { ModuleDraft } from './module-draft';
import type { Scope } from './scope';
import { createStore, type Store } from './start-store';

export interface BenchStore {
  readonly store: Store;
  /** Whether something outside has been read since this was last asked. */
  hasReadOutside(): boolean;
  /** Reads as outside until it is written again. */
  lose(signals: readonly LocalSignal[]): void;
}

/** `changed`: called whenever a variable has another value than before, or is lost. */
export function createBenchStore(draft: ModuleDraft, changed: () => void): BenchStore {
  const values = createStore();
  const assigned = continuousValues(draft);
  const kept = assignedVariables(draft);
  const lost = new Set<LocalSignal>();
  let readsOutside = false;
  let depth = 0;

  const outside = (width: number): Bits => {
    readsOutside = true;
    return allX(width);
  };
  const netValue = (signal: LocalSignal): Bits => {
    const driver = assigned.get(signal);
    const { width } = signal.shape;
    if (driver === undefined || depth >= deepestNets) return outside(width);
    depth++;
    const value = lowerTo({ context: contextIn(draft, driver.scope), reader }, driver.value, width);
    depth--;
    return value;
  };
  const whole = (signal: LocalSignal): Bits => {
    if (signal.shape.kind === 'net' || assigned.has(signal)) return netValue(signal);
    const isKept = signal.isPrivate || kept.has(signal);
    return !isKept || lost.has(signal) ? outside(signal.shape.width) : values.startOf(signal);
  };
  const reader: Reader<Bits> = {
    algebra: { ...bitsAlgebra, hole: outside },
    read: (signal, low, width) => slice(whole(signal), low, width),
    readBelow: (_below, _low, width) => outside(width),
    call: (call) => call.context.runFunction(call, reader),
    indexed() {},
    compared() {},
  };
  return {
    store: {
      ...values,
      reader,
      write(signal, low, value, at) {
        const before = values.startOf(signal);
        const isFound = lost.delete(signal);
        values.write(signal, low, value, at);
        if (isFound || !equalBits(before, replaceSlice(before, low, value))) changed();
      },
    },
    hasReadOutside() {
      const answer = readsOutside;
      readsOutside = false;
      return answer;
    },
    lose(signals) {
      for (const signal of signals) lost.add(signal);
      changed();
    },
  };
}

/** Nets behind one another; one that drives itself is none of a test bench's. */
const deepestNets = 16;

interface ScopedValue {
  readonly scope: Scope;
  readonly value: Expression;
}

/** What the bench's own processes assign; any other variable is the tested module's. */
function assignedVariables({ initializers, work }: ModuleDraft): ReadonlySet<LocalSignal> {
  const found = new Set(initializers.flatMap(({ parts }) => parts.map(({ signal }) => signal)));
  for (const entry of work) {
    if (entry.kind !== 'item' || entry.item.kind !== 'process') continue;
    for (const signal of assignedSignals(entry.scope, entry.item.body)) found.add(signal);
  }
  return found;
}

/** By net: the only value that drives the whole of it at once. A net with several is left out. */
function continuousValues({ work }: ModuleDraft): ReadonlyMap<LocalSignal, ScopedValue> {
  const found = new Map<LocalSignal, ScopedValue>();
  const several = new Set<LocalSignal>();
  const add = (signal: LocalSignal, driver: ScopedValue): void => {
    if (found.has(signal)) several.add(signal);
    found.set(signal, driver);
  };
  for (const entry of work) {
    if (entry.kind === 'net-value' && entry.delay === null) add(entry.signal, entry);
    if (entry.kind !== 'item' || entry.item.kind !== 'assign' || entry.item.delay !== null) continue;
    const { target, value } = entry.item;
    const entity = entityAlong(entry.scope, target);
    if (entity?.kind === 'signal') add(entity, { scope: entry.scope, value });
  }
  for (const signal of several) found.delete(signal);
  return found;
}
