// What a test bench among the given files does to the ports of the module it tests: plain data, read from its text.

import type { Place } from '../text/place';
import type { Bits } from './four-state';

export interface Bench {
  /** Name of the test bench's module. */
  readonly name: string;
  /** The instance of the tested module in it. */
  readonly place: Place;
  /** The input ports that it connects, in header order. */
  readonly ports: readonly BenchPort[];
}

export interface BenchPort {
  /** Name of the tested module's port. */
  readonly name: string;
  /** What is connected to it. */
  readonly place: Place;
  /** Null where it depends on what the tested module does, or on what cannot be followed. */
  readonly wave: BenchWave | null;
}

export interface BenchWave {
  /** At time 0, when all that happens at time 0 has happened. */
  readonly start: Bits;
  /** After time 0, in order, each different from the one before; ps. */
  readonly changes: readonly { readonly at: number; readonly value: Bits }[];
  /** False: the bench was still moving it when it was no longer followed. */
  readonly isWhole: boolean;
}
