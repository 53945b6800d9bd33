// Inputs that move: from the shape that a person states to the changes it means, one after the other, and what is left
// when they are over. An input that moves is never taken to be at a level for good before it has come to rest.

import { type Bits, bitsOf } from '../netlist/four-state';
import type { Drive, DriveInput, InputMoves, InputShape } from './drive';
import { parseDriveValue } from './drive-value';
import { levelAtBit } from './engine-bits';

export interface ShapedInput {
  /** At time 0. */
  readonly value: Bits;
  readonly moves: InputMoves;
}

/** What a shape means for a port of this width; else the value that does not fit it, as written. */
export function movesOfShape(shape: InputShape, width: number): ShapedInput | { readonly misfit: string } {
  if (shape.kind === 'levels') return movesOfLevels(shape, width);
  const { active } = shape;
  if (width !== 1) return { misfit: shape.kind };
  const [rest, other] = (active === 'high' ? ['0', '1'] : ['1', '0']).map(bitsOf);
  if (shape.kind === 'button') {
    const { pressPs, releasePs } = shape;
    const pressed = contact(shape, pressPs, { from: rest, to: other });
    const released = releasePs === null ? [] : contact(shape, releasePs, { from: other, to: rest });
    return { value: rest, moves: { changes: [...pressed, ...released], everyPs: null } };
  }
  const { atPs, everyPs, widthPs } = shape;
  const changes = [
    { at: atPs, value: other },
    { at: atPs + widthPs, value: rest },
  ];
  return { value: rest, moves: { changes, everyPs } };
}

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

function movesOfLevels(
  { everyPs, levels }: InputShape & { kind: 'levels' },
  width: number,
): ShapedInput | { readonly misfit: string } {
  const values = levels.map(({ value }) => parseDriveValue(value, width));
  const misfit = levels.find((_, index) => values[index] === null);
  if (misfit !== undefined) return { misfit: misfit.value };
  const [start, ...later] = values as Bits[];
  const changes = later.map((value, index) => ({ at: levels[index + 1].atPs, value }));
  const again = everyPs === null ? [] : [{ at: everyPs, value: start }];
  return { value: start, moves: { changes: [...changes, ...again], everyPs } };
}

/** A contact that moves at an instant and goes back and forth for a while. */
function contact(
  { bouncePs, bounces }: InputShape & { kind: 'button' },
  at: number,
  { from, to }: { readonly from: Bits; readonly to: Bits },
): InputMoves['changes'] {
  const later = Array.from({ length: 2 * bounces }, (_, index) => ({
    at: at + Math.round((bouncePs * (index + 1)) / (2 * bounces)),
    value: index % 2 === 0 ? from : to,
  }));
  return [{ at, value: to }, ...later];
}
