// Checks a value against a shape and says in words what is wrong, naming the path: `clocks.clk.periodPs must be a whole
// number`. Written by hand since a general validator compiles code at run time, which the editor's web host refuses.

import type { Shape } from './shape';

/** Every way in which `value` differs from `shape`; empty where it fits. `path` is what the value is called. */
export function checkShape(shape: Shape, value: unknown, path: string): readonly string[] {
  switch (shape.kind) {
    case 'text':
      return checkText(shape, value, path);
    case 'choice':
      return shape.values.includes(value as string | number) ? [] : [`${path} must be ${wordsOf(shape.values)}`];
    case 'number':
      return checkNumber(shape, value, path);
    case 'flag':
      return typeof value === 'boolean' ? [] : [`${path} must be true or false`];
    case 'list':
      return Array.isArray(value)
        ? value.flatMap((item, index) => checkShape(shape.of, item, `${path}[${index}]`))
        : [`${path} must be a list`];
    case 'record':
      return isObject(value)
        ? Object.entries(value).flatMap(([key, entry]) => checkShape(shape.of, entry, inside(path, key)))
        : [`${path} must be an object`];
    case 'object':
      return checkObject(shape, value, path);
    case 'nullable':
      return value === null ? [] : checkShape(shape.of, value, path);
    case 'either':
      return checkEither(shape, value, path);
  }
}

function checkText(shape: Shape & { kind: 'text' }, value: unknown, path: string): readonly string[] {
  if (typeof value !== 'string') return [`${path} must be a text in quotes`];
  if (shape.pattern === null || new RegExp(shape.pattern, 'u').test(value)) return [];
  return [`${path} must be ${shape.about}`];
}

function checkNumber(shape: Shape & { kind: 'number' }, value: unknown, path: string): readonly string[] {
  const minimum = shape.minimum ?? -Number.MAX_SAFE_INTEGER;
  const fits = typeof value === 'number' && value >= minimum && value <= Number.MAX_SAFE_INTEGER;
  if (fits && (!shape.whole || Number.isInteger(value))) return [];
  const least = shape.minimum === null ? '' : `, at least ${shape.minimum}`;
  return [`${path} must be a ${shape.whole ? 'whole number' : 'number'}${least}`];
}

function checkObject(shape: Shape & { kind: 'object' }, value: unknown, path: string): readonly string[] {
  if (!isObject(value)) return [`${path === '' ? 'the file' : path} must be an object`];
  const required = shape.required === 'all' ? Object.keys(shape.fields) : shape.required;
  const missing = required
    .filter((name) => !Object.hasOwn(value, name))
    .map((name) => `${inside(path, name)} is missing`);
  return [
    ...missing,
    ...Object.entries(value).flatMap(([key, entry]) =>
      Object.hasOwn(shape.fields, key)
        ? checkShape(shape.fields[key], entry, inside(path, key))
        : [`${inside(path, key)} is not a known key`],
    ),
  ];
}

/**
 * Fits if one option fits; else says what is wrong with the one that the keys of an object show to be meant, or what
 * would fit, or what is wrong with the option that comes nearest.
 */
function checkEither(shape: Shape & { kind: 'either' }, value: unknown, path: string): readonly string[] {
  const meant = shape.of.find((option) => isMeant(option, value));
  if (meant !== undefined) return checkShape(meant, value, path);
  const results = shape.of.map((option) => checkShape(option, value, path));
  const nearest = results.reduce((best, next) => (next.length < best.length ? next : best));
  return nearest.length === 0 || shape.about === '' ? nearest : [`${path} must be ${shape.about}`];
}

function isMeant(option: Shape, value: unknown): boolean {
  if (option.kind !== 'object' || !isObject(value)) return false;
  const required = option.required === 'all' ? Object.keys(option.fields) : option.required;
  return required.length > 0 && required.every((name) => Object.hasOwn(value, name));
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function inside(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}

function wordsOf(values: readonly (string | number)[]): string {
  return `one of ${values.map((value) => JSON.stringify(value)).join(', ')}`;
}
