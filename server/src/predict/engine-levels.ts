// The order in which cells without delay settle: a cell stands one level above the deepest cell without delay that it
// reads, so that one ascending pass settles an instant and no order of evaluation makes a glitch of its own. Cells in a
// loop have no such order; they are placed by number and settle by repeated passes.

import type { Cells } from './engine-cells';
import type { Lists } from './engine-lists';

export interface Levels {
  /** Level of each cell; cells with delay all stand at `top`, above the others. */
  readonly of: Uint32Array;
  readonly top: number;
}

/** `readers`: dense bit → the cells that read it. `hasDelay`: by cell. */
export function levelCells(cells: Cells, readers: Lists, hasDelay: Uint8Array): Levels {
  const level = new Uint32Array(cells.count);
  const waiting = countDrivers(cells, hasDelay);
  const ready: number[] = [];
  const placed = new Uint8Array(cells.count);
  const place = (cell: number): void => {
    placed[cell] = 1;
    ready.push(cell);
  };
  const release = (cell: number): void => {
    if (hasDelay[cell] === 1) return;
    for (let bit = cells.out[cell]; bit < cells.out[cell] + cells.width[cell]; bit++) {
      const end = readers.first[bit + 1];
      for (let entry = readers.first[bit]; entry < end; entry++) {
        const reader = readers.items[entry];
        if (placed[reader] === 1) continue;
        level[reader] = Math.max(level[reader], level[cell] + 1);
        waiting[reader]--;
        if (waiting[reader] === 0) place(reader);
      }
    }
  };
  const drain = (): void => {
    for (let cell = ready.pop(); cell !== undefined; cell = ready.pop()) release(cell);
  };
  for (let cell = 0; cell < cells.count; cell++) if (waiting[cell] === 0) place(cell);
  drain();
  for (let cell = 0; cell < cells.count; cell++) {
    if (placed[cell] === 1) continue;
    place(cell);
    drain();
  }
  return liftDelayed(level, hasDelay);
}

/** How many of a cell's operand bits are driven by cells without delay; a bit read twice counts once. */
function countDrivers(cells: Cells, hasDelay: Uint8Array): Uint32Array {
  const waiting = new Uint32Array(cells.count);
  const seen = new Int32Array(cells.driverOf.length).fill(-1);
  for (let cell = 0; cell < cells.count; cell++) {
    const end = cells.first[cell] + cells.arity[cell];
    for (let entry = cells.first[cell]; entry < end; entry++) {
      const bit = cells.pool[entry];
      if (seen[bit] === cell) continue;
      seen[bit] = cell;
      const driver = cells.driverOf[bit];
      if (driver >= 0 && hasDelay[driver] === 0) waiting[cell]++;
    }
  }
  return waiting;
}

function liftDelayed(level: Uint32Array, hasDelay: Uint8Array): Levels {
  let top = 0;
  for (let cell = 0; cell < level.length; cell++) if (hasDelay[cell] === 0) top = Math.max(top, level[cell] + 1);
  for (let cell = 0; cell < level.length; cell++) if (hasDelay[cell] === 1) level[cell] = top;
  return { of: level, top };
}
