// Inputs that move: their changes one after the other, and what is left when they are over. An input that moves is never
// taken to be at a level for good before it has come to rest.

import { type Bits, bitsOf } from '../netlist/four-state';
import type { Drive, DriveInput, InputMoves } from './drive';
import { levelAtBit } from './engine-bits';

/** Where an input comes to rest; unknown where it never does. */
export function restOf({ moves, value }: DriveInput): Bits {
  if (moves === null || moves.changes.length === 0) return value;
  if (moves.everyPs !== null) return bitsOf('x'.repeat(value.width));
  return moves.changes[moves.changes.length - 1].value;
}

/** The same drive after all of its inputs have come to rest. */
export function driveAtRest(drive: Drive): Drive {
  if (drive.inputs.every(({ moves }) => moves === null)) return drive;
  return { ...drive, inputs: drive.inputs.map((input) => ({ ...input, value: restOf(input), moves: null })) };
}

export interface InputEdges {
  /** ps of the next change, null after the last. */
  readonly time: number | null;
  /** Level of the bit after it (0, 1, 2 = z, 3 = x); it may be the same as before. */
  readonly level: number;
  advance(): void;
}

/** The changes of one bit of an input, one after the other. */
export function createInputEdges({ changes, everyPs }: InputMoves, bit: number): InputEdges {
  let index = 0;
  let later = 0;
  return {
    get time() {
      return index < changes.length ? changes[index].at + later : null;
    },
    get level() {
      return levelAtBit(changes[index].value, bit);
    },
    advance() {
      index++;
      if (index < changes.length || everyPs === null) return;
      index = 0;
      later += everyPs;
    },
  };
}
