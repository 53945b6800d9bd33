// The form of a what-if: one thing that a person asks to be otherwise.

export const whatIfKinds = ['edge', 'start', 'clock', 'delays', 'held'] as const;

/** `about`: full name of a register (or of the signal that it is of), of an input for `held`; empty for delays of all. */
export interface WhatIf {
  readonly about: string;
  readonly what: (typeof whatIfKinds)[number];
  /** rising or falling; a constant; a signal; a delay set; a constant. */
  readonly value: string;
}
