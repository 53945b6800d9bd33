// What a verdict about a glitch rests on, as reasons that `explain/` words. Each with what its sentence needs.

/** Of `Glitch.why`. */
export const glitchReasons = [
  /** The changes come in one order, whatever the delays of this set: `delaySet`. */
  'glitch-fixed-order',
  /** The set fixes no order between changes (equal or overlapping times): `delaySet`. */
  'glitch-open-order',
  /** Comes out of an operator whose structure the text does not give (+, <, shift by a variable …). */
  'glitch-unknown-structure',
  /** Hangs on a bit whose value is not known. */
  'glitch-unknown-bits',
  /** More orders than were tried; the one shown is among those that can happen: `delaySet`. */
  'glitch-orders-untried',
  /** It can happen in the states chosen, but whether those are reached hangs on bits of another clock: `delaySet`, `clock`. */
  'glitch-foreign-bits',
  /** … on bits of this clock of which there are too many to follow: `delaySet`, `bits`. */
  'glitch-unfollowed-bits',
] as const;

export type GlitchReason = (typeof glitchReasons)[number];

/** Of `limit-reached`, about what was not looked at: `signal` and `limit`. */
export const glitchLimitReasons = [
  /** More reachable states than followed. */
  'glitch-states-limit',
  /** More free inputs than tried in every way: `inputs`. */
  'glitch-inputs-limit',
  /** More register bits without reset or start value than tried in every way. */
  'glitch-starts-limit',
  /** More transitions than judged. */
  'glitch-transitions-limit',
  /** More orders of one transition than tried, none of them wrong so far. */
  'glitch-orders-limit',
] as const;

export type GlitchLimitReason = (typeof glitchLimitReasons)[number];
