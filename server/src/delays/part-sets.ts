// Delay sets of single parts, as their data sheets print them: one entry each, with sheet and conditions. A sheet that
// prints typical and largest values gives no least ones: the least is then taken as the typical one, and said. Limits that
// a user has to keep (least pulse, recovery, setup) are those that every part meets. Not printed here: null.

import { nothingStated } from './nothing-stated';
import type { DelaySet, DirectionalDelay } from './delay-set';
import { tripleOf } from './triple';
import type { DelayTriple } from '../netlist/netlist';

/** 14 stages with an oscillator; the outputs of the first three stages are not led out. */
const sheet4060 = 'Philips Semiconductors 74HC4060, IC06 data handbook, December 1990';
const sheet4024 = 'Philips Semiconductors HEF4024B, January 1995';
const sheet163 = 'Philips Semiconductors HEF40163B, January 1995';
const sheet74 = 'Philips Semiconductors 74HC74, IC06 data handbook';
const sheetLs74 = 'Fairchild Semiconductor DM74LS74A';
const sheetLs163 = 'Texas Instruments SN74LS163A, data book table';
const sheet165 = 'NXP 74HC165, rev. 03, 14 March 2008';

const noLeast = 'no least value published: taken as the typical one';

export const partSets: readonly DelaySet[] = [
  {
    ...nothingStated,
    name: '74HC4060',
    sheet: sheet4060,
    // RS to Q3 is 31 ns over four stages, each later stage 6 ns.
    conditions:
      '5 V, 15 pF, 25 °C; typical; of the 31 ns to Q3, the three stages behind the first are taken as 6 ns each',
    clockToQ: { first: both(13_000), next: both(6_000) },
    stagesPerPart: 14,
    clear: both(17_000),
    period: tripleOf(1e12 / 87e6),
  },
  ripple4024('HEF4024B-5V', '5 V', {
    first: { rise: [105, 210], fall: [100, 200] },
    next: { rise: [50, 100], fall: [60, 120] },
    clear: 120,
    recovery: 20,
    width: 60,
    megahertz: [5, 10],
  }),
  ripple4024('HEF4024B-10V', '10 V', {
    first: { rise: [45, 85], fall: [40, 75] },
    next: { rise: [20, 40], fall: [25, 50] },
    clear: 45,
    recovery: 15,
    width: 30,
    megahertz: [13, 25],
  }),
  ripple4024('HEF4024B-15V', '15 V', {
    first: { rise: [30, 60], fall: [25, 50] },
    next: { rise: [15, 30], fall: [20, 40] },
    clear: 30,
    recovery: 15,
    width: 20,
    megahertz: [18, 35],
  }),
  synchronous40163('HEF40163B-5V', '5 V', { rise: 115, fall: 110 }),
  synchronous40163('HEF40163B-10V', '10 V', { rise: 45, fall: 45 }),
  synchronous40163('HEF40163B-15V', '15 V', { rise: 35, fall: 30 }),
  {
    ...nothingStated,
    name: '74HC74',
    sheet: sheet74,
    conditions: '5 V, 15 pF, 25 °C; typical; of set (15 ns) and reset (16 ns) the later',
    clockToQ: { first: both(14_000), next: null },
    clear: both(16_000),
    period: tripleOf(1e12 / 76e6),
  },
  {
    ...nothingStated,
    name: '74LS74A-15pF',
    sheet: sheetLs74,
    conditions: '5 V, 2 kΩ, 15 pF, 25 °C; largest values; setup from memory of the same table',
    clockToQ: { first: { rise: tripleOf(25_000), fall: tripleOf(30_000) }, next: null },
    setup: tripleOf(20_000),
    period: tripleOf(1e12 / 25e6),
  },
  {
    ...nothingStated,
    name: '74LS74A-50pF',
    sheet: sheetLs74,
    conditions: '5 V, 2 kΩ, 50 pF, 25 °C; largest values; setup from memory of the same table',
    clockToQ: { first: both(35_000), next: null },
    setup: tripleOf(20_000),
    period: tripleOf(1e12 / 20e6),
  },
  {
    ...nothingStated,
    name: '74LS163A',
    sheet: sheetLs163,
    conditions: '0 to 70 °C; clock to output largest values at 15 pF, from memory of the same table',
    clockToQ: { first: { rise: tripleOf(24_000), fall: tripleOf(27_000) }, next: null },
    setup: tripleOf(20_000),
    hold: tripleOf(0),
    width: tripleOf(25_000),
    period: tripleOf(1e12 / 25e6),
  },
  {
    ...nothingStated,
    name: '74HC165',
    sheet: sheet165,
    conditions: `4.5 V, 50 pF, 25 °C; ${noLeast}`,
    clockToQ: { first: { rise: upTo([19, 33]), fall: upTo([19, 33]) }, next: null },
    recovery: tripleOf(20_000),
    width: tripleOf(16_000),
  },
];

/** ns: typical and largest. */
type Range = readonly [typical: number, largest: number];

interface RippleFigures {
  readonly first: { readonly rise: Range; readonly fall: Range };
  readonly next: { readonly rise: Range; readonly fall: Range };
  /** ns, typical: master reset to outputs. */
  readonly clear: number;
  /** ns that every part needs at most. */
  readonly recovery: number;
  readonly width: number;
  /** Clock rate that every part reaches, and a typical one. */
  readonly megahertz: readonly [least: number, typical: number];
}

function ripple4024(name: string, supply: string, figures: RippleFigures): DelaySet {
  const [least, typical] = figures.megahertz.map((megahertz) => 1e6 / megahertz);
  return {
    ...nothingStated,
    name,
    sheet: sheet4024,
    conditions: `${supply}, 50 pF, 25 °C; ${noLeast}`,
    clockToQ: {
      first: { rise: upTo(figures.first.rise), fall: upTo(figures.first.fall) },
      next: { rise: upTo(figures.next.rise), fall: upTo(figures.next.fall) },
    },
    stagesPerPart: 7,
    clear: both(figures.clear * 1000),
    recovery: tripleOf(figures.recovery * 1000),
    width: tripleOf(figures.width * 1000),
    period: { min: typical, typ: typical, max: least },
  };
}

function synchronous40163(
  name: string,
  supply: string,
  { fall, rise }: { readonly rise: number; readonly fall: number },
): DelaySet {
  return {
    ...nothingStated,
    name,
    sheet: sheet163,
    conditions: `${supply}, 50 pF, 25 °C; typical; outputs of the count, not of the carry`,
    clockToQ: { first: { rise: tripleOf(rise * 1000), fall: tripleOf(fall * 1000) }, next: null },
  };
}

function upTo([typical, largest]: Range): DelayTriple {
  return { min: typical * 1000, typ: typical * 1000, max: largest * 1000 };
}

function both(ps: number): DirectionalDelay {
  return { rise: tripleOf(ps), fall: tripleOf(ps) };
}
