// A decode that can pass a wrong value while its register bits change: what `glitches[]` of the report says.

import type { Place } from '../text/place';
import type { Bit, DelayTriple, RegisterId } from '../netlist/netlist';
import type { Why } from '../clocks/network';
import type { Certainty } from './finding';

export type EndKind =
  | 'clock'
  | 'reset'
  | 'latch'
  | 'memory'
  | 'tristate'
  | 'crossing'
  | 'output'
  | 'data'
  | 'black-box';

export interface GlitchEnd {
  readonly kind: EndKind;
  readonly signal: string;
  readonly harmless: boolean;
  /** Clock period above which it is harmless, ps; null where that does not apply. */
  readonly harmlessAbovePs: number | null;
  readonly place: Place;
}

export interface GlitchTransition {
  /** Register bits before and after, most significant first, as decimal strings. */
  readonly from: string;
  readonly to: string;
  /** Values of the decoded signal passed on the way (binary or decimal string), at ps after the root edge. */
  readonly passes: readonly { readonly at: number; readonly value: string }[];
  readonly pulse: DelayTriple;
  /** Inputs per root period from the start that lead to this transition; empty where it comes by itself. */
  readonly witness: readonly {
    readonly period: number;
    readonly inputs: readonly { readonly signal: string; readonly value: string }[];
  }[];
}

export interface Glitch {
  readonly bit: Bit;
  readonly signal: string;
  readonly certainty: Certainty;
  /** Most significant first. */
  readonly registers: readonly { readonly register: RegisterId; readonly bit: number; readonly name: string }[];
  readonly transitions: readonly GlitchTransition[];
  readonly ends: readonly GlitchEnd[];
  readonly harmless: boolean;
  readonly why: Why;
  readonly place: Place;
}
