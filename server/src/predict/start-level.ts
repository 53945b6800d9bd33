// The level a stored bit has before anything happens, asynchronous controls aside (definition 17).

import type { Latch, Register } from '../netlist/netlist';
import { levelAtBit } from './engine-bits';
import type { Level } from './waves';

export type StartSetting = '0' | '1' | 'x';

/** What the text gives, else the setting. An initial value written in the text counts whole, its x included. */
export function startLevelOf(stored: Register | Latch, bit: number, setting: StartSetting): Level {
  const written = levelAtBit(stored.initial, bit);
  const isWritten = 'initialPlace' in stored && stored.initialPlace !== null;
  if (written !== 3 || isWritten || setting === 'x') return written;
  return setting === '1' ? 1 : 0;
}
