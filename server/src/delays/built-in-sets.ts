// The delay sets that come with the tool: assumptions, and parts from published sheets. Those of this file print typical
// values at one temperature and load only, so min, typ and max are one value (`spread` is false) and no verdict that
// needs a spread may be drawn from them. What a sheet does not state here is null.

import { nothingStated } from './nothing-stated';
import type { DelaySet, DirectionalDelay } from './delay-set';
import { partSets } from './part-sets';
import { programmableLogic } from './programmable-logic';
import { tripleOf, zeroDelay } from './triple';

/** 74HC/HCT393, dual 4-bit binary ripple counter: IC06 data sheet of December 1990 and revision 03 of 6 September 2005. */
const sheet393 = 'Philips Semiconductors 74HC393; 74HCT393, rev. 03, 6 September 2005';
/** 74HC/HCT4040, 12-stage binary ripple counter. */
const sheet4040 = 'Philips Semiconductors 74HC4040; 74HCT4040, rev. 03, 14 September 2005';

/** In the order in which they are offered. `unit` is the default. */
export const builtInDelaySets: readonly DelaySet[] = [
  assumedSet('unit', 'flip-flops 1 ns; gates, latches and wires none (an assumption that shows order, not speed)', {
    first: both(1000),
    clear: both(1000),
  }),
  assumedSet('ideal', 'nothing takes time (an assumption)', { first: zeroDelay, clear: zeroDelay }),
  sheetSet({ name: '74HC393', sheet: sheet393, first: 12_000, next: 5_000, clear: 11_000, toggleHz: 99e6, stages: 4 }),
  sheetSet({ name: '74HCT393', sheet: sheet393, first: 20_000, next: 6_000, clear: 15_000, toggleHz: 53e6, stages: 4 }),
  sheetSet({ name: '74HC4040', sheet: sheet4040, first: 14_000, next: 8_000, clear: null, toggleHz: 90e6, stages: 12 }),
  sheetSet({
    name: '74HCT4040',
    sheet: sheet4040,
    first: 16_000,
    next: 8_000,
    clear: null,
    toggleHz: 79e6,
    stages: 12,
  }),
  ...partSets,
  programmableLogic,
];

export function builtInDelaySet(name: string): DelaySet | null {
  return builtInDelaySets.find((set) => set.name === name) ?? null;
}

interface SheetFigures {
  readonly name: string;
  readonly sheet: string;
  /** ps, typical: clock input to first output, output to next output, master reset to outputs. */
  readonly first: number;
  readonly next: number;
  readonly clear: number | null;
  /** Typical highest toggle rate of the clock input. */
  readonly toggleHz: number;
  readonly stages: number;
}

function sheetSet(figures: SheetFigures): DelaySet {
  return {
    ...nothingStated,
    name: figures.name,
    sheet: figures.sheet,
    conditions: '5 V, 15 pF, 25 °C; typical values, no minimum or maximum published for them',
    clockToQ: { first: both(figures.first), next: both(figures.next) },
    stagesPerPart: figures.stages,
    clear: figures.clear === null ? null : both(figures.clear),
    // Kept exact, so that the published rate comes back; edges stand on whole ps.
    period: tripleOf(1e12 / figures.toggleHz),
  };
}

function assumedSet(
  name: string,
  conditions: string,
  { first, clear }: { readonly first: DirectionalDelay; readonly clear: DirectionalDelay },
): DelaySet {
  return { ...nothingStated, name, sheet: null, conditions, clockToQ: { first, next: null }, clear };
}

function both(ps: number): DirectionalDelay {
  return { rise: tripleOf(ps), fall: tripleOf(ps) };
}
