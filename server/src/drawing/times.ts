// Instants and spans as a person reads them. Exact: never rounded.

const units = [
  { name: 'ps', scale: 0, below: 1_000 },
  { name: 'ns', scale: 3, below: 10_000_000 },
  { name: 'µs', scale: 6, below: 10_000_000_000 },
  { name: 'ms', scale: 9, below: 10_000_000_000_000 },
  { name: 's', scale: 12, below: Number.POSITIVE_INFINITY },
] as const;

/** `347 ns`, `1.25 ns`, `40 ps`, `0 ns`. `ps`: whole, not negative. */
export function timeText(ps: number): string {
  if (ps === 0) return '0 ns';
  const { name, scale } = units.find(({ below }) => ps < below) ?? units[4];
  const digits = String(ps).padStart(scale + 1, '0');
  const whole = digits.slice(0, digits.length - scale);
  const fraction = digits.slice(digits.length - scale).replace(/0+$/, '');
  return `${whole}${scale === 0 || fraction === '' ? '' : `.${fraction}`} ${name}`;
}
