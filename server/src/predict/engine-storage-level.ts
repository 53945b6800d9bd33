// What asynchronous controls make of a stored bit: levels, in priority order (definition 13).

import { mergeLevels } from './engine-evaluate';
import type { StorageUnit } from './engine-storage-plan';

/**
 * `rest` is what the bit becomes without them. The first active control rules; one of unknown level merges what it would
 * load with what stands below it.
 */
export function underControls(unit: StorageUnit, bit: number, plane: Uint8Array, rest: number): number {
  const { controls } = unit;
  let level = rest;
  for (let index = controls.length - 1; index >= 0; index--) {
    const { bit: control, activeLevel, value } = controls[index];
    const now = plane[control];
    if (now === activeLevel) level = plane[value[bit]];
    else if (now >= 2) level = mergeLevels(level, plane[value[bit]]);
  }
  return level;
}

/** Whether some control is active or of unknown level. */
export function isControlled(unit: StorageUnit, plane: Uint8Array): boolean {
  for (const { bit, activeLevel } of unit.controls) {
    if (plane[bit] === activeLevel || plane[bit] >= 2) return true;
  }
  return false;
}
