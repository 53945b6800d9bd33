// From one settled reading to the next: which readings are passed on the way with typical delays. Bits that change at
// the same time change together here: that no reading stands between them is not certain then, only not told apart.

import { bitsOf } from '../netlist/four-state';
import type { RegisterId } from '../netlist/netlist';
import { type EventContext, type TimedChange, timeChanges } from './arrival-events';
import { type CountEntry, type Reading, readingOf } from './counts-entry';
import type { CountStep } from './prediction';

/** `offsets`: where each register's bits stand in the reading. */
export function passesOf(
  from: Reading,
  width: number,
  changes: readonly TimedChange[],
  offsets: ReadonlyMap<RegisterId, number>,
): CountStep['passes'] {
  const own = changes.filter(({ register }) => offsets.has(register));
  if (own.every(({ time }) => time.typ === own[0].time.typ)) return nothing;
  const ordered = own.sort((left, right) => left.time.typ - right.time.typ);
  const digits = digitsOf(from, width);
  const passes: { at: number; value: string }[] = [];
  ordered.forEach(({ register, bit, to, time }, index) => {
    digits[width - 1 - (offsets.get(register) as number) - bit] = to;
    const next = ordered[index + 1];
    if (next !== undefined && next.time.typ > time.typ) passes.push({ at: time.typ, value: textOf(digits) });
  });
  return passes;
}

const nothing: CountStep['passes'] = [];

/** The same for a step that was not looked at by itself: every bit that differs was sampled at the clock's edge. */
export function passesOfCount(
  context: EventContext,
  from: Reading,
  to: Reading,
  { registers, width }: CountEntry,
  offsets: ReadonlyMap<RegisterId, number>,
  widthOf: (register: RegisterId) => number,
): CountStep['passes'] {
  if (typeof from === 'string' || typeof to === 'string') return nothing;
  const changes = registers.flatMap((register) =>
    Array.from({ length: widthOf(register) }, (_, bit) => ({ register, bit })).flatMap(({ bit }) => {
      const at = BigInt((offsets.get(register) as number) + bit);
      if (((from ^ to) >> at) % 2n === 0n) return [];
      return [{ step: 1, register, bit, to: (to >> at) % 2n === 1n ? '1' : '0', kind: 'sampled' } as const];
    }),
  );
  const timed = timeChanges(context, changes);
  return timed === null ? nothing : passesOf(from, width, timed, offsets);
}

/** Most significant first. */
function digitsOf(reading: Reading, width: number): string[] {
  return [...(typeof reading === 'string' ? reading : reading.toString(2).padStart(width, '0'))];
}

function textOf(digits: readonly string[]): string {
  return String(readingOf(bitsOf(digits.join(''))));
}
