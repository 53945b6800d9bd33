// What a shape that a person states means: the value an input has at first, and its changes. One file for all shapes,
// since each is a few lines; whether the numbers of a shape fit each other is checked where they are read.

import { type Bits, bitsOf } from '../netlist/four-state';
import type { InputMoves, InputShape } from './drive';
import { parseDriveValue } from './drive-value';

export interface ShapedInput {
  /** At time 0. */
  readonly value: Bits;
  readonly moves: InputMoves;
}

/** What a shape means for a port of this width; else the value that does not fit it, as written. */
export function movesOfShape(shape: InputShape, width: number): ShapedInput | { readonly misfit: string } {
  if (shape.kind === 'levels') return movesOfLevels(shape, width);
  if (shape.kind === 'random') return movesAtRandom(shape, width);
  return width === 1 ? movesOfBit(shape) : { misfit: shape.kind };
}

function movesOfBit(shape: InputShape & { kind: 'pulse' | 'button' | 'serial' }): ShapedInput {
  if (shape.kind === 'serial') return movesOfSerial(shape);
  const [rest, other] = (shape.active === 'high' ? ['0', '1'] : ['1', '0']).map(bitsOf);
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

/** Bit k of the frames begins at the rounded k-th multiple of the exact bit time, so that no error adds up. */
function movesOfSerial({ atPs, baud, bytes }: InputShape & { kind: 'serial' }): ShapedInput {
  const [low, high] = ['0', '1'].map(bitsOf);
  const line = bytes.flatMap((byte) => [0, ...Array.from({ length: 8 }, (_, bit) => (byte >> bit) & 1), 1]);
  const changes = line.flatMap((level, index) =>
    level === (line[index - 1] ?? 1)
      ? []
      : [{ at: atPs + Math.round((index * 1e12) / baud), value: level === 1 ? high : low }],
  );
  return { value: high, moves: { changes, everyPs: null } };
}

/** Values before the sequence begins again: enough that no preview shows the same stretch twice, in bounded memory. */
function randomValues(width: number): number {
  return Math.max(2, Math.min(1024, Math.floor(262_144 / width)));
}

/** The generator of Park and Miller, Communications of the ACM 31 (1988): z becomes 16807 z mod (2^31 - 1). */
export function* randomNumbers(seed: number): Generator<number, never> {
  for (let z = seed; ; ) {
    z = (z * 16_807) % 2_147_483_647;
    yield z;
  }
}

/** One number a bit, its upper half: the lowest bits of such a generator repeat early. */
function movesAtRandom({ atPs, seed, stepPs }: InputShape & { kind: 'random' }, width: number): ShapedInput {
  const numbers = randomNumbers(seed);
  const draw = () =>
    bitsOf(Array.from({ length: width }, () => (numbers.next().value > 1_073_741_823 ? '1' : '0')).join(''));
  const values = randomValues(width);
  const value = draw();
  const later = Array.from({ length: values - 1 }, (_, index) => ({ at: atPs + index * stepPs, value: draw() }));
  const again = { at: atPs + (values - 1) * stepPs, value };
  return { value, moves: { changes: [...later, again], everyPs: values * stepPs } };
}
