// Small pieces of sentences that every template uses: rates, levels, lists.

import type { Level } from '../predict/waves';

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
