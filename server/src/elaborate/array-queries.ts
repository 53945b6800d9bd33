// Questions about the dimensions of what is declared (IEEE 1800-2017 20.7): unpacked ones first, then the packed ones.

import type { PackedForm } from '../netlist/packed-form';
import type { Expression } from '../syntax/tables';
import { typeFormMeant } from './casts';
import type { ExpressionContext } from './expression-context';
import { formOfShape } from './local-signal';
import { formMeant } from './patterns';
import { lookUp } from './scope';

interface Dimension {
  readonly low: number;
  readonly high: number;
  readonly descends: boolean;
}

/** `dimension`: from 1. Null where the expression is no signal, array or type, or has no such dimension. */
export function queried(
  context: ExpressionContext,
  query: string,
  about: Expression,
  dimension: number,
): number | null {
  const all = dimensionsOf(context, about);
  if (all === null) return null;
  if (query === '$dimensions') return all.length;
  const found = all[dimension - 1];
  return found === undefined ? null : answer(query, found);
}

function dimensionsOf(context: ExpressionContext, about: Expression): readonly Dimension[] | null {
  const type = typeFormMeant(context, about);
  if (type !== null) return [...(type.dimensions ?? []).map(rangeOf), ...packedDimensions(formOfShape(type))];
  const entity = about.kind === 'name' ? lookUp(context.scope, about.name) : null;
  if (entity?.kind === 'array') {
    const unpacked = entity.dimensions.map(({ descends, first, size }) => ({
      low: first,
      high: first + size - 1,
      descends,
    }));
    return [...unpacked, ...packedDimensions(formOfShape(entity.shape))];
  }
  if (about.kind === 'name' && entity?.kind !== 'signal' && entity?.kind !== 'record') return null;
  const form = formMeant(context, about);
  return form === null ? null : packedDimensions(form);
}

/** Outermost first; a structure is a vector as a whole (7.2.1). */
function packedDimensions(form: PackedForm): readonly Dimension[] {
  const dimensions: Dimension[] = [];
  let inner = form;
  for (; inner.kind === 'array'; inner = inner.element) dimensions.push(rangeOf(inner));
  if (inner.kind === 'record') return [...dimensions, { low: 0, high: inner.width - 1, descends: true }];
  return inner.scalar ? dimensions : [...dimensions, rangeOf(inner)];
}

function rangeOf({ msb, lsb }: { readonly msb: number; readonly lsb: number }): Dimension {
  return { low: Math.min(msb, lsb), high: Math.max(msb, lsb), descends: msb >= lsb };
}

function answer(query: string, { descends, high, low }: Dimension): number | null {
  switch (query) {
    case '$low':
      return low;
    case '$high':
      return high;
    case '$size':
      return high - low + 1;
    default:
      if (query === '$increment') return descends ? 1 : -1;
      return (query === '$left') === descends ? high : low;
  }
}
