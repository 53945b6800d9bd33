// `#` delays of the text as triples in ps (IEEE 1364-2005 7.14, 6.1.3): one value for all changes, rise and fall, or
// rise, fall and to z; each min:typ:max or one for all three. A delay rounds to the module's precision, then to ps.

import type { DelayTriple, ExplicitDelay } from '../netlist/netlist';
import type { DelayTable, Expression, ModuleTable } from '../syntax/tables';
import { numberOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { sayNotConstant } from './not-constant';

/** Without a `timescale both are assumed to be 1 ns. */
const assumedScale = 1000;

/** What a number of the module's time units comes to; ps. */
export function unitsToPs(
  units: number,
  { timeUnit, timePrecision }: Pick<ModuleTable, 'timeUnit' | 'timePrecision'>,
): number {
  const unit = timeUnit ?? assumedScale;
  return rounded(units * unit, { unit, precision: timePrecision ?? assumedScale });
}

/** Null with a complaint where a value is not a constant, or negative. */
export function explicitDelay(
  context: ExpressionContext,
  { timeUnit, timePrecision }: Pick<ModuleTable, 'timeUnit' | 'timePrecision'>,
  table: DelayTable,
): ExplicitDelay | null {
  const scale = { unit: timeUnit ?? assumedScale, precision: timePrecision ?? assumedScale };
  const triples = table.values.map((value) => triple(context, scale, value));
  if (triples.length === 0 || triples.some((value) => value === null)) return null;
  const [rise, fall, toZ] = triples as DelayTriple[];
  const falling = fall ?? rise;
  return { rise, fall: falling, toZ: toZ ?? smaller(rise, falling), place: context.source.place(table.at) };
}

/** What a number of a specify block comes to, ps, negative where the text says so. Null with a complaint: not constant. */
export function specifiedTime(
  context: ExpressionContext,
  { timeUnit, timePrecision }: Pick<ModuleTable, 'timeUnit' | 'timePrecision'>,
  value: Expression,
): number | null {
  const scale = { unit: timeUnit ?? assumedScale, precision: timePrecision ?? assumedScale };
  if (value.kind === 'time') return rounded(value.value * unitsInPs[value.unit], scale);
  const constant = context.constant(value);
  const number = constant === null ? null : numberOf(constant);
  if (number === null || !Number.isFinite(number)) {
    sayNotConstant(context, value);
    return null;
  }
  return rounded(number * scale.unit, scale);
}

export interface Scale {
  /** ps in one unit of the module's time, and in one step of its precision. */
  readonly unit: number;
  readonly precision: number;
}

function triple(context: ExpressionContext, scale: Scale, value: Expression): DelayTriple | null {
  if (value.kind !== 'mintypmax') {
    const one = picoseconds(context, scale, value);
    return one === null ? null : { min: one, typ: one, max: one };
  }
  const min = picoseconds(context, scale, value.min);
  const typ = picoseconds(context, scale, value.typ);
  const max = picoseconds(context, scale, value.max);
  return min === null || typ === null || max === null ? null : { min, typ, max };
}

export const unitsInPs = { s: 1e12, ms: 1e9, us: 1e6, ns: 1e3, ps: 1, fs: 1e-3 } as const;

function picoseconds(context: ExpressionContext, scale: Scale, value: Expression): number | null {
  const { source, log } = context;
  if (value.kind === 'time') return rounded(value.value * unitsInPs[value.unit], scale);
  const constant = context.constant(value);
  const number = constant === null ? null : numberOf(constant);
  if (number === null) {
    sayNotConstant(context, value);
    return null;
  }
  if (number < 0 || !Number.isFinite(number)) {
    log.add('negative-delay', { text: source.textOf(value.at) }, source.place(value.at));
    return null;
  }
  return rounded(number * scale.unit, scale);
}

/** Half up, first to the precision, then to ps; a product like 0.3 × 10 counts as the decimal it stands for. */
function rounded(ps: number, { precision }: Scale): number {
  const steps = Math.floor(exact(ps / precision) + 0.5);
  return Math.floor(exact(steps * precision) + 0.5);
}

/** Binary fractions miss decimal halves by the last few bits; 12 digits are more than a delay is written with. */
function exact(value: number): number {
  return Number(value.toPrecision(12));
}

export function smaller(left: DelayTriple, right: DelayTriple): DelayTriple {
  return {
    min: Math.min(left.min, right.min),
    typ: Math.min(left.typ, right.typ),
    max: Math.min(left.max, right.max),
  };
}
