// Shapes of JSON values as data. One description serves three readers: the published JSON Schema (`schema.ts`), the
// check of a project file (`check-shape.ts`), and the compiler, which holds it to the hand-written types (`ValueOf`).
// Only what the project's own files need: no references, no conditions but `facts`.

export type Shape =
  | { readonly kind: 'text'; readonly about: string; readonly pattern: string | null }
  | { readonly kind: 'choice'; readonly about: string; readonly values: readonly (string | number)[] }
  | { readonly kind: 'number'; readonly about: string; readonly whole: boolean; readonly minimum: number | null }
  | { readonly kind: 'flag'; readonly about: string }
  | { readonly kind: 'list'; readonly about: string; readonly of: Shape }
  | { readonly kind: 'record'; readonly about: string; readonly of: Shape }
  | {
      readonly kind: 'object';
      readonly about: string;
      readonly required: 'all' | readonly string[];
      readonly fields: Fields;
    }
  | { readonly kind: 'nullable'; readonly of: Shape }
  | { readonly kind: 'either'; readonly about: string; readonly of: readonly Shape[] };

export type Fields = Readonly<Record<string, Shape>>;

/** The TypeScript type of the values that a shape allows. Objects with optional fields are not told apart here. */
export type ValueOf<S> = S extends { kind: 'text' }
  ? string
  : S extends { kind: 'choice'; values: readonly (infer V)[] }
    ? V
    : S extends { kind: 'number' }
      ? number
      : S extends { kind: 'flag' }
        ? boolean
        : S extends { kind: 'list'; of: infer Item }
          ? readonly ValueOf<Item>[]
          : S extends { kind: 'record'; of: infer Entry }
            ? Readonly<Record<string, ValueOf<Entry>>>
            : S extends { kind: 'nullable'; of: infer Inner }
              ? ValueOf<Inner> | null
              : S extends { kind: 'either'; of: readonly (infer Option)[] }
                ? ValueOf<Option>
                : S extends { kind: 'object'; fields: infer F }
                  ? { readonly [Name in keyof F]: ValueOf<F[Name]> }
                  : never;

export function text(about = '') {
  return { kind: 'text', about, pattern: null } as const;
}

/** `pattern` is a regular expression of JSON Schema (ECMA-262), anchored by its writer. */
export function patterned(pattern: string, about = '') {
  return { kind: 'text', about, pattern } as const;
}

export function choice<const Values extends readonly (string | number)[]>(values: Values, about = '') {
  return { kind: 'choice', about, values } as const;
}

export function number(about = '') {
  return { kind: 'number', about, whole: false, minimum: null } as const;
}

export function whole(about = '') {
  return { kind: 'number', about, whole: true, minimum: null } as const;
}

export function count(about = '') {
  return { kind: 'number', about, whole: true, minimum: 0 } as const;
}

export function positive(about = '') {
  return { kind: 'number', about, whole: true, minimum: 1 } as const;
}

export function flag(about = '') {
  return { kind: 'flag', about } as const;
}

export function list<const Item extends Shape>(of: Item, about = '') {
  return { kind: 'list', about, of } as const;
}

/** Any keys, values of one shape. */
export function record<const Entry extends Shape>(of: Entry, about = '') {
  return { kind: 'record', about, of } as const;
}

/** Every field is required. */
export function object<const F extends Fields>(fields: F, about = '') {
  return { kind: 'object', about, required: 'all', fields } as const;
}

/** Only the fields named are required. */
export function partial<const F extends Fields>(fields: F, required: readonly string[] = [], about = '') {
  return { kind: 'object', about, required, fields } as const;
}

export function nullable<const Inner extends Shape>(of: Inner) {
  return { kind: 'nullable', of } as const;
}

export function either<const Options extends readonly Shape[]>(of: Options, about = '') {
  return { kind: 'either', about, of } as const;
}
