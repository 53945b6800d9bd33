// Instants and spans of time as a person reads them. Exact: a time is never rounded.

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
