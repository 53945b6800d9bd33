// What a comparison of two reports says: types, and the kinds of things that are compared.

export interface Comparison {
  readonly changes: readonly Change[];
}

export interface Change {
  readonly kind: (typeof comparedKinds)[number];
  readonly what: 'gained' | 'lost' | 'altered';
  /** Full name, or for what has none of its own the names that it is about. */
  readonly name: string;
  /** Of what is altered: each field with its two values, as the report has them. */
  readonly fields: readonly { readonly field: string; readonly from: string; readonly to: string }[];
}

export const comparedKinds = [
  'register',
  'latch',
  'memory',
  'clock',
  'domain',
  'chain',
  'sequence',
  'transfer',
  'crossing',
  'reset',
  'glitch',
  'output',
  'finding',
] as const;
