// What an enumeration calls the values of a signal (IEEE 1800-2017 6.19), for whoever shows them.

import { toBinary } from './four-state';
import type { Netlist, Signal } from './netlist';

/** By binary digits; null where the bits are no whole value of an enumeration, or one bit, which is drawn as a level. */
export function namesOfValues(
  { names, width: all }: Signal,
  low: number,
  width: number,
): Readonly<Record<string, string>> | null {
  if (names === undefined || low !== 0 || width !== all || width === 1) return null;
  return Object.fromEntries(names.members.map(({ name, value }) => [toBinary(value), name] as const).reverse());
}

/** The same for the bits of registers that are read together, which must be one register. */
export function namesOfReading(
  { registers, signals }: Pick<Netlist, 'registers' | 'signals'>,
  ids: readonly number[],
): Readonly<Record<string, string>> | null {
  if (ids.length !== 1) return null;
  const { low, signal, width } = registers[ids[0]];
  return namesOfValues(signals[signal], low, width);
}
