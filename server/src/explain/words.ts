// Small pieces of sentences that every template uses: times, rates, levels, lists. Exact: a time is never rounded.

import type { Level } from '../predict/waves';

const timeUnits = [
  { name: 'ps', scale: 0, below: 1_000 },
  { name: 'ns', scale: 3, below: 10_000_000 },
  { name: 'µs', scale: 6, below: 10_000_000_000 },
  { name: 'ms', scale: 9, below: 10_000_000_000_000 },
  { name: 's', scale: 12, below: Number.POSITIVE_INFINITY },
] as const;

/** `347 ns`, `1.25 ns`, `-40 ps`, `0 ns`: exact, in the unit that is easiest to read. `ps` is a whole number. */
export function timeWords(ps: number): string {
  if (ps === 0) return '0 ns';
  const unit = timeUnits.find(({ below }) => Math.abs(ps) < below) ?? timeUnits[timeUnits.length - 1];
  return `${shifted(ps, unit.scale)} ${unit.name}`;
}

/** The decimal digits of `whole` × 10^-`places`, without closing zeros. */
function shifted(whole: number, places: number): string {
  const sign = whole < 0 ? '-' : '';
  const digits = String(Math.abs(whole)).padStart(places + 1, '0');
  const fraction = digits.slice(digits.length - places).replace(/0+$/, '');
  const integer = digits.slice(0, digits.length - places);
  return `${sign}${integer}${places === 0 || fraction === '' ? '' : `.${fraction}`}`;
}

/** `50 MHz`, `32.768 kHz`; six significant digits, for a rate is a quotient and need not be exact. */
export function rateWords(hertz: number): string {
  const units = [
    { name: 'GHz', size: 1e9 },
    { name: 'MHz', size: 1e6 },
    { name: 'kHz', size: 1e3 },
  ];
  const unit = units.find(({ size }) => hertz >= size) ?? { name: 'Hz', size: 1 };
  return `${Number((hertz / unit.size).toPrecision(6))} ${unit.name}`;
}

export function digitOf(level: Level): '0' | '1' | 'z' | 'x' {
  return (['0', '1', 'z', 'x'] as const)[level];
}

/** What a change of one bit is called: `rose`, `fell`, and in words where an end is unknown or released. */
export function changeWords(before: string, after: string): string {
  if (before === '0' && after === '1') return 'rose';
  if (before === '1' && after === '0') return 'fell';
  if (after === 'x') return 'became unknown';
  if (after === 'z') return 'was released';
  return `became ${after}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listWords(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

/** As `listWords`, cut after `most` with the number of those left out. */
export function shortListWords(items: readonly string[], most: number): string {
  if (items.length <= most) return listWords(items);
  return `${items.slice(0, most).join(', ')} and ${items.length - most} more`;
}

/** `1 register`, `2 registers`. */
export function countWords(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
