// Start values of variables: their declarations and initial blocks, run by IEEE 1364-2005 to the letter up to the first
// time control of each. What comes after it is stimulus, not a start value; which signals it drives is noted.

import { allX, type Bits, zero } from '../netlist/four-state';
import { replaceSlice, slice } from '../netlist/four-state-parts';
import type { At } from '../syntax/tables';
import { bitsAlgebra, type Reader } from './algebra';
import { contextIn } from './constants';
import { runInitial } from './initial-run';
import { lowerTo } from './lower';
import type { LocalSignal } from './local-signal';
import type { ModuleDraft, Work } from './module-draft';
import { addProcess } from './processes';

export interface StartValues {
  /** The value at time 0: x where nothing has set it. */
  valueOf(signal: LocalSignal): Bits;
  /** Where a start value is written; null where none is. */
  placeOf(signal: LocalSignal): At | null;
}

export interface Store extends StartValues {
  readonly reader: Reader<Bits>;
  write(signal: LocalSignal, low: number, value: Bits, at: At): void;
}

export function* findStartValues(draft: ModuleDraft): Generator<void, StartValues> {
  const store = createStore();
  for (const { signal, scope, value } of draft.initializers) {
    const at = { context: contextIn(draft, scope), reader: store.reader };
    store.write(signal, 0, lowerTo(at, value, signal.shape.width), value.at);
  }
  const atEnd: (() => void)[] = [];
  for (const work of draft.work) {
    if (!isInitial(work)) continue;
    const process = addProcess(draft, 'initial', work.item.at);
    process.kind = 'stimulus';
    yield* runInitial({ draft, process, store, atEnd, steps: { count: 0 } }, work.scope, work.item.body);
  }
  for (const update of atEnd) update();
  return store;
}

type InitialWork = Extract<Work, { kind: 'item' }> & { readonly item: { readonly kind: 'process' } };

function isInitial(work: Work): work is InitialWork {
  return work.kind === 'item' && work.item.kind === 'process' && work.item.flavor === 'initial';
}

/** Types of two values start at 0 (IEEE 1800), all others at x. */
const twoState: ReadonlySet<string> = new Set(['bit', 'int', 'byte', 'shortint', 'longint']);

function createStore(): Store {
  const values = new Map<LocalSignal, Bits>();
  const places = new Map<LocalSignal, At>();
  const valueOf = (signal: LocalSignal) => {
    const { width, type } = signal.shape;
    return values.get(signal) ?? (twoState.has(type) ? zero(width) : allX(width));
  };
  return {
    valueOf,
    placeOf: (signal) => places.get(signal) ?? (twoState.has(signal.shape.type) ? signal.at : null),
    write(signal, low, value, at) {
      values.set(signal, replaceSlice(valueOf(signal), low, value));
      places.set(signal, at);
    },
    reader: {
      algebra: bitsAlgebra,
      read: (signal, low, width) => slice(valueOf(signal), low, width),
      readBelow: (_below, _low, width) => allX(width),
      compared() {},
    },
  };
}
