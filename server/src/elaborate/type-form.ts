// A type worked out, and what an instance gives the parameters of its module.

import type { ConstantValue } from './constant-value';
import type { SignalShape } from './local-signal';

/** What a declaration needs to know of a type. */
export interface TypeForm extends Omit<SignalShape, 'kind'> {
  readonly kind: 'type';
}

/** A value or, for a type parameter, a type. */
export type Override = ConstantValue | TypeForm;
