// A shape as a JSON Schema, draft 2020-12. An object may gain fields later, so a reader must allow more than is named:
// only the project file, which a person writes, is closed (`open: false`), so that a slip of the pen is found.

import type { Shape } from './shape';

export type JsonSchema = Readonly<Record<string, unknown>>;

export const draft = 'https://json-schema.org/draft/2020-12/schema';

export interface SchemaOptions {
  /** Whether objects may carry fields that the shape does not name. */
  readonly open: boolean;
}

export function schemaOf(shape: Shape, options: SchemaOptions): JsonSchema {
  switch (shape.kind) {
    case 'text':
      return described(shape.about, { type: 'string', ...(shape.pattern === null ? {} : { pattern: shape.pattern }) });
    case 'choice':
      return described(shape.about, { enum: shape.values });
    case 'number':
      return described(shape.about, numberSchema(shape));
    case 'flag':
      return described(shape.about, { type: 'boolean' });
    case 'list':
      return described(shape.about, { type: 'array', items: schemaOf(shape.of, options) });
    case 'record':
      return described(shape.about, { type: 'object', additionalProperties: schemaOf(shape.of, options) });
    case 'object':
      return described(shape.about, objectSchema(shape, options));
    case 'nullable':
      return { anyOf: [schemaOf(shape.of, options), { type: 'null' }] };
    case 'either':
      return described(shape.about, { anyOf: shape.of.map((option) => schemaOf(option, options)) });
  }
}

function described(about: string, schema: JsonSchema): JsonSchema {
  return about === '' ? schema : { description: about, ...schema };
}

/** No number above 2^53 − 1: a reader in any language keeps it exactly. */
function numberSchema(shape: Shape & { kind: 'number' }): JsonSchema {
  const type = shape.whole ? 'integer' : 'number';
  return { type, minimum: shape.minimum ?? -Number.MAX_SAFE_INTEGER, maximum: Number.MAX_SAFE_INTEGER };
}

function objectSchema(shape: Shape & { kind: 'object' }, options: SchemaOptions): JsonSchema {
  const names = Object.keys(shape.fields);
  return {
    type: 'object',
    properties: Object.fromEntries(names.map((name) => [name, schemaOf(shape.fields[name], options)])),
    required: shape.required === 'all' ? names : shape.required,
    additionalProperties: options.open,
  };
}
