// The level a stored bit has before anything happens, asynchronous controls aside (definition 17).

import { type Bits, fromPlanes, hasUnknown } from '../netlist/four-state';
import { concat } from '../netlist/four-state-parts';
import { contentsOf, type Latch, type Netlist, type Register } from '../netlist/netlist';
import { levelAtBit } from './engine-bits';

export type StartSetting = '0' | '1' | 'x';

/**
 * What the text gives, else the setting. An initial value written in the text counts whole, its x included. In a memory's
 * content the setting stands for words that the text gives no value.
 */
export function startBitsOf(netlist: Pick<Netlist, 'memories'>, stored: Register | Latch, setting: StartSetting): Bits {
  const contents = contentsOf(netlist, stored);
  if (contents !== null) return contents.filledWith(stored.initial, setting);
  const isWritten = 'initialPlace' in stored && stored.initialPlace !== null;
  if (isWritten || setting === 'x' || !hasUnknown(stored.initial)) return stored.initial;
  const digits = Array.from({ length: stored.width }, (_, bit) => {
    const level = levelAtBit(stored.initial, bit);
    return level !== 3 ? fromPlanes(1, level & 1, level >> 1) : fromPlanes(1, setting === '1' ? 1 : 0, 0);
  });
  return concat(digits.reverse());
}
