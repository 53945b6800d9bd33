// Questions about the dimensions of what is declared (IEEE 1800-2017 20.7): unpacked ones first, then the packed one.

import type { Expression } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import { lookUp } from './scope';

const queries: ReadonlySet<string> = new Set([
  '$low',
  '$high',
  '$size',
  '$dimensions',
  '$left',
  '$right',
  '$increment',
]);

export function isQuery(name: string): boolean {
  return queries.has(name);
}

interface Dimension {
  readonly low: number;
  readonly high: number;
  /** Null where the order of the bounds is not kept. */
  readonly descends: boolean | null;
}

/** `dimension`: from 1. Null where the expression is no plain name of a signal or array, or has no such dimension. */
export function queried(
  { scope }: ExpressionContext,
  query: string,
  about: Expression,
  dimension: number,
): number | null {
  const entity = about.kind === 'name' ? lookUp(scope, about.name) : null;
  if (entity?.kind !== 'signal' && entity?.kind !== 'array') return null;
  const { lsb, msb, scalar } = entity.shape;
  const packed: readonly Dimension[] = scalar
    ? []
    : [{ low: Math.min(msb, lsb), high: Math.max(msb, lsb), descends: msb >= lsb }];
  const unpacked =
    entity.kind === 'array'
      ? entity.dimensions.map(({ first, size }): Dimension => ({ low: first, high: first + size - 1, descends: null }))
      : [];
  const all = [...unpacked, ...packed];
  if (query === '$dimensions') return all.length;
  const found = all[dimension - 1];
  return found === undefined ? null : answer(query, found);
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
      if (descends === null) return null;
      if (query === '$increment') return descends ? 1 : -1;
      return (query === '$left') === descends ? high : low;
  }
}
