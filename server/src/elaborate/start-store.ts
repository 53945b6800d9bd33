// Values of variables while initial blocks run, and what they come to at time 0.

import { allX, type Bits, zero } from '../netlist/four-state';
import { replaceSlice, slice } from '../netlist/four-state-parts';
import type { At } from '../syntax/tables';
import { bitsAlgebra, type Reader } from './algebra';
import type { LocalSignal } from './local-signal';

export interface StartValues {
  /** The value at time 0: x where nothing has set it. */
  startOf(signal: LocalSignal): Bits;
  /** Where a start value is written; null where none is. */
  placeOf(signal: LocalSignal): At | null;
}

export interface Store extends StartValues {
  readonly reader: Reader<Bits>;
  write(signal: LocalSignal, low: number, value: Bits, at: At): void;
}

export type Write = Store['write'];

/** The variables of one call, x at first. What lies outside it is read and written as around the call. */
export function createFrameStore(outside: Reader<Bits>, writeOutside: Write): Store {
  const values = new Map<LocalSignal, Bits>();
  const heldBy = (signal: LocalSignal) => values.get(signal) ?? allX(signal.shape.width);
  return {
    startOf: heldBy,
    placeOf: () => null,
    write(signal, low, value, at) {
      if (signal.isPrivate) values.set(signal, replaceSlice(heldBy(signal), low, value));
      else writeOutside(signal, low, value, at);
    },
    reader: {
      ...outside,
      read: (signal, low, width, at) =>
        signal.isPrivate ? slice(heldBy(signal), low, width) : outside.read(signal, low, width, at),
      call: (call) => call.context.runFunction(call, outside),
    },
  };
}

/** Types of two values start at 0 (IEEE 1800), all others at x. */
const twoState: ReadonlySet<string> = new Set(['bit', 'int', 'byte', 'shortint', 'longint']);

export function startsAtZero(type: string): boolean {
  return twoState.has(type);
}

export function createStore(): Store {
  const values = new Map<LocalSignal, Bits>();
  const places = new Map<LocalSignal, At>();
  const startOf = (signal: LocalSignal) => {
    const { width, type } = signal.shape;
    return values.get(signal) ?? (twoState.has(type) ? zero(width) : allX(width));
  };
  const reader: Reader<Bits> = {
    algebra: bitsAlgebra,
    read: (signal, low, width) => slice(startOf(signal), low, width),
    readBelow: (_below, _low, width) => allX(width),
    call: (call) => call.context.runFunction(call, reader),
    indexed() {},
    compared() {},
  };
  return {
    startOf,
    placeOf: (signal) => places.get(signal) ?? (twoState.has(signal.shape.type) ? signal.at : null),
    write(signal, low, value, at) {
      values.set(signal, replaceSlice(startOf(signal), low, value));
      places.set(signal, at);
    },
    reader,
  };
}
