// From one settled reading to the next: which readings are passed on the way with typical delays. Bits that change at
// the same time change together here: that no reading stands between them is not certain then, only not told apart.

import { bitsOf } from '../netlist/four-state';
import type { RegisterId } from '../netlist/netlist';
import type { TimedChange } from './arrival-events';
import { readingText } from './counts-entry';
import type { CountStep } from './prediction';

/** `from`: the reading before, least significant bit first. `offsets`: where each register's bits stand in it. */
export function passesOf(
  from: readonly string[],
  changes: readonly TimedChange[],
  offsets: ReadonlyMap<RegisterId, number>,
): CountStep['passes'] {
  const own = changes.filter(({ register }) => offsets.has(register));
  const ordered = [...own].sort((left, right) => left.time.typ - right.time.typ);
  const digits = [...from];
  const passes: { at: number; value: string }[] = [];
  ordered.forEach(({ register, bit, to, time }, index) => {
    digits[(offsets.get(register) as number) + bit] = to;
    const isLast = index === ordered.length - 1;
    if (!isLast && ordered[index + 1].time.typ > time.typ) passes.push({ at: time.typ, value: textOf(digits) });
  });
  return passes;
}

function textOf(digits: readonly string[]): string {
  return readingText(bitsOf([...digits].reverse().join('')));
}
