// Random four-state values as strings of digits, most significant first.

import fc from 'fast-check';

const digit = fc.constantFrom('0', '1', 'x', 'z');
const knownDigit = fc.constantFrom('0', '1');
/** Unknown digits are rare enough that arithmetic is seen to work, and frequent enough to be seen. */
const mostlyKnown = fc.oneof({ weight: 12, arbitrary: knownDigit }, { weight: 1, arbitrary: digit });

/** Widths on both sides of each limb border come up often. */
export function widthUpTo(most: number): fc.Arbitrary<number> {
  const borders = [1, 4, 5, 31, 32, 33, 63, 64, 65, 96, 97].filter((width) => width <= most);
  return fc.oneof(fc.integer({ min: 1, max: most }), fc.constantFrom(...borders));
}

export function digitsOfWidth(width: number): fc.Arbitrary<string> {
  const of = (kind: fc.Arbitrary<string>) => fc.string({ unit: kind, minLength: width, maxLength: width });
  return fc.oneof(of(digit), of(knownDigit), of(mostlyKnown));
}

export function knownDigitsOfWidth(width: number): fc.Arbitrary<string> {
  return fc.string({ unit: knownDigit, minLength: width, maxLength: width });
}

export function digits(most: number): fc.Arbitrary<string> {
  return widthUpTo(most).chain(digitsOfWidth);
}

export function pairOfDigits(most: number): fc.Arbitrary<[string, string]> {
  return widthUpTo(most).chain((width) => fc.tuple(digitsOfWidth(width), digitsOfWidth(width)));
}
