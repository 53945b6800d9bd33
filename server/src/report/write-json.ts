// A report as JSON text: keys in the order of the schema, two blanks of indentation, one line end at the close. The same
// report gives the same bytes.

import { impossible } from '../text/impossible';
import type { Report } from './report';
import { reportShape } from './report-shape';
import type { Shape } from './shape';

export function writeJson(report: Report): string {
  return `${JSON.stringify(ordered(reportShape, report), null, 2)}\n`;
}

/** The same value with the keys of every object in the order of its shape; keys the shape does not name come last. */
function ordered(shape: Shape, value: unknown): unknown {
  if (value === null) return null;
  switch (shape.kind) {
    case 'nullable':
      return ordered(shape.of, value);
    case 'list':
      return (value as readonly unknown[]).map((item) => ordered(shape.of, item));
    case 'object':
      return orderedObject(shape, value as Readonly<Record<string, unknown>>);
    case 'number':
      return representable(value as number);
    default:
      return value;
  }
}

function orderedObject(
  shape: Shape & { readonly kind: 'object' },
  value: Readonly<Record<string, unknown>>,
): Readonly<Record<string, unknown>> {
  const named = Object.keys(shape.fields).map((key) => [key, ordered(shape.fields[key], value[key])] as const);
  const others = Object.entries(value).filter(([key]) => !Object.hasOwn(shape.fields, key));
  return Object.fromEntries([...named, ...others]);
}

/** JSON has no Infinity and no NaN, and readers keep whole numbers only up to 2^53 − 1. */
function representable(value: number): number {
  if (Number.isFinite(value) && Math.abs(value) <= Number.MAX_SAFE_INTEGER) return value;
  return impossible(`a report holds the number ${value}`);
}
