// Where the part of a packed value that a target names stands among the value's bits (IEEE 1800-2017 7.4.6, 11.5.1). Several
// indices that vary come together as one bit number; one that leads outside its own dimension leads outside the value.

import { fromNumber } from '../netlist/four-state';
import { Op } from '../netlist/operators';
import type { PackedForm } from '../netlist/packed-form';
import type { At, Expression } from '../syntax/tables';
import { type Reader, resizeTo } from './algebra';
import type { ExpressionContext } from './expression-context';
import { type Located, locateIn, partPlace } from './lower-reference';
import type { Chosen } from './references';

interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

/** `bounds`: of a fixed place, the stretch that its bits may lie in. */
export type Placed<Value> =
  | (Extract<Located<Value>, { kind: 'fixed' }> & { readonly bounds: { readonly low: number; readonly width: number } })
  | Extract<Located<Value>, { kind: 'variable' | 'hole' }>;

interface Whole {
  readonly width: number;
  readonly msb: number;
  readonly lsb: number;
  readonly packed?: PackedForm;
}

export function placeOf<Value>(
  at: Surroundings<Value>,
  { select, view }: Chosen,
  whole: Whole,
  lower: (at: Surroundings<Value>, expression: Expression) => Value,
): Placed<Value> {
  let bounds = { low: 0, width: whole.width };
  let moved: Value | null = null;
  const move = (by: Value, place: At): void => {
    moved = moved === null ? by : sumOf(at, moved, by, place);
  };
  const nowhere = (width: number) => ({ kind: 'fixed', low: -width, width, bounds }) as const;
  for (const step of view?.steps ?? []) {
    if (step.kind === 'fixed') {
      bounds = { low: bounds.low + step.low, width: step.width };
      continue;
    }
    const element = step.of.element.width;
    const place = partPlace(at, step, lower);
    if (place.kind === 'fixed') return nowhere(chosenWidth(at, select, view?.form ?? null, lower));
    const isWhole = moved === null && bounds.width === whole.width;
    move(
      isWhole ? place.low : guarded(at, place.low, step.of.width - element, whole.width, step.index.at),
      step.index.at,
    );
    bounds = { low: bounds.low, width: element };
  }
  const form = view?.form ?? whole.packed ?? whole;
  const chosen: Located<Value> =
    select === null ? { kind: 'fixed', low: 0, width: bounds.width } : locateIn(at, select, form, lower);
  if (chosen.kind === 'hole') return chosen;
  const { width } = chosen;
  const { at: place } = select ?? { at: view?.steps[0]?.kind === 'index' ? view.steps[0].index.at : noPlace };
  if (chosen.kind === 'variable') {
    const isWhole = moved === null && bounds.width === whole.width;
    move(isWhole ? chosen.low : guarded(at, chosen.low, bounds.width - width, whole.width, place), place);
  } else if (moved === null) {
    return { kind: 'fixed', low: bounds.low + chosen.low, width, bounds };
  } else if (chosen.low < 0 || chosen.low + width > bounds.width) {
    if (chosen.low >= bounds.width || chosen.low + width <= 0) return nowhere(width);
    const what = 'part-select that reaches beyond its element';
    return { kind: 'hole', complaint: at.context.log.add('construct', { what }, at.context.source.place(place)) };
  } else {
    bounds = { low: bounds.low + chosen.low, width };
  }
  return { kind: 'variable', low: withOffset(at, moved as Value, bounds.low, place), width };
}

const noPlace = { start: 0, end: 0 } as At;

function chosenWidth<Value>(
  at: Surroundings<Value>,
  select: Chosen['select'],
  form: PackedForm | null,
  lower: (at: Surroundings<Value>, expression: Expression) => Value,
): number {
  if (form === null) return 1;
  if (select === null) return form.width;
  const place = locateIn(at, select, form, lower);
  return place.kind === 'hole' ? 1 : place.width;
}

/** Bit number `low` where it lies from 0 to `last`, else one far outside the whole. */
function guarded<Value>({ reader: { algebra } }: Surroundings<Value>, low: Value, last: number, whole: number, at: At) {
  const width = algebra.widthOf(low);
  const number = (value: number) => algebra.constant(fromNumber(width, value), at);
  const below = algebra.compare(Op.lessSigned, low, number(0), at);
  const above = algebra.compare(Op.lessSigned, number(last), low, at);
  const outside = algebra.apply(Op.or, 1, [below, above], 0, at);
  return algebra.apply(Op.mux, width, [outside, number(-2 * whole), low], 0, at);
}

function sumOf<Value>({ reader: { algebra } }: Surroundings<Value>, left: Value, right: Value, at: At): Value {
  const width = Math.max(algebra.widthOf(left), algebra.widthOf(right)) + 1;
  const wide = (value: Value) => resizeTo(algebra, value, width, 'sign', at);
  return algebra.apply(Op.add, width, [wide(left), wide(right)], 0, at);
}

function withOffset<Value>({ reader: { algebra } }: Surroundings<Value>, low: Value, offset: number, at: At): Value {
  if (offset === 0) return low;
  const width = algebra.widthOf(low);
  return algebra.apply(Op.add, width, [low, algebra.constant(fromNumber(width, offset), at)], 0, at);
}
