// Rates that a person wished for, in the report as text: what was found beside them. The other rates stand in the JSON;
// the registers' own lines tell how often they repeat.

import { rateWords } from '../explain/words';
import type { Report, ReportRate } from './report';

/** Rows of columns. */
export function rateRows({ rates }: Report): readonly (readonly string[])[] {
  return rates.flatMap((rate) => (rate.wished === null ? [] : [rateRow(rate, rate.wished)]));
}

function rateRow({ error, period, signal, why }: ReportRate, wished: number): readonly string[] {
  const found = period === null ? `not told: ${why}` : rateWords(1 / period.seconds);
  return [signal, found, `wished ${rateWords(wished)}`, error === null ? '' : errorWords(error)];
}

/** `0.16 % too fast`; four digits are enough to judge by. */
function errorWords(error: number): string {
  const percent = Math.abs(error) * 100;
  // The wish is written with as many digits as a person gives, the rate found is a quotient: what is left is rounding.
  if (percent < leastTold) return 'as wished';
  return `${Number(percent.toPrecision(4))} % too ${error > 0 ? 'fast' : 'slow'}`;
}

/** Percent: one in a million million. */
const leastTold = 1e-10;
