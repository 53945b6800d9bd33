// Whether two designs read the same at every settled instant: from the start through every state that is reached together,
// inputs free before every edge of every clock. All of them where those are few enough; else one long run with random
// inputs, and then that is said. Signals may be asked to read one edge later than before.

import { readBit, setSourceBit, advance } from '../predict/settled';
import type { SettledMachine } from '../predict/settled-machine';
import { stateLimbs } from '../predict/settled-run';
import { restoreSnapshot, type Snapshot, takeSnapshot } from '../predict/settled-snapshot';
import type { DesignFacts } from '../report/design-facts';
import { createRandom } from './random';
import { openSides, type Shared, sharedBits, type Sides } from './side-by-side';

export interface Readings {
  /** Full names. */
  readonly same: readonly string[];
  /** What must read what it read just before the last such edge. */
  readonly later: { readonly names: readonly string[]; readonly clock: string; readonly level: 0 | 1 } | null;
  /** Inputs that move only while a clock is at a level. */
  readonly still: { readonly names: readonly string[]; readonly clock: string; readonly level: 0 | 1 } | null;
}

export type Explored =
  | { readonly kind: 'all'; readonly states: number; readonly sampledOld: ReadonlySet<string> }
  | { readonly kind: 'run'; readonly edges: number; readonly sampledOld: ReadonlySet<string> }
  | { readonly kind: 'different'; readonly name: string }
  | { readonly kind: 'unknown' };

/** Input bits up to which every setting is tried before every edge. */
const fewInputs = 6;
/** Edges taken, over all states. */
const mostSteps = 20_000;
/** Evaluations of nodes, over all states. */
const mostWork = 6_000_000;
/** Edges of a run with random inputs. */
const runEdges = 4096;

export function* exploreBoth(before: DesignFacts, after: DesignFacts, readings: Readings): Generator<void, Explored> {
  const same = sharedBits(before, after, readings.same);
  const later = sharedBits(before, after, readings.later?.names ?? []);
  const sides = openSides(before, after, [...same, ...later]);
  if (sides === null || sides.clocks.length === 0) return { kind: 'unknown' };
  const walk: Walk = { sides, same, later, readings, limbs: sides.machines.map(({ plan }) => stateLimbs(plan)) };
  const start: State = { levels: sides.clocks.map(() => 0), inputs: sides.inputs.map(() => 0), owed: null };
  const home = takeBoth(sides);
  const whole = sides.inputs.length > fewInputs ? null : yield* walkAll(walk, start, home);
  if (whole !== null) return whole;
  restoreBoth(sides, home);
  return yield* walkOn(walk, start);
}

interface Walk {
  readonly sides: Sides;
  readonly same: readonly Shared[];
  readonly later: readonly Shared[];
  readonly readings: Readings;
  /** Where each machine keeps its state. */
  readonly limbs: readonly (readonly number[])[];
}

/** What the machines themselves do not hold. */
interface State {
  readonly levels: readonly Level01[];
  readonly inputs: readonly Level01[];
  /** What the later signals are to read by now; null before the first edge. */
  readonly owed: string | null;
}

type Level01 = 0 | 1;
type Snapshots = readonly Snapshot[];

/** Null where there are too many states. */
function* walkAll(walk: Walk, start: State, home: Snapshots): Generator<void, Explored | null> {
  const { clocks, inputs, machines, sampledOld } = walk.sides;
  const seen = new Set<string>();
  const waiting: { readonly state: State; readonly at: Snapshots }[] = [{ state: start, at: home }];
  const workBefore = workOf(machines);
  let steps = 0;
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (let choice = 0; choice < clocks.length << inputs.length; choice++) {
      if (steps >= mostSteps || workOf(machines) - workBefore > mostWork) return null;
      steps += 1;
      restoreBoth(walk.sides, next.at);
      const setting = inputs.map((_, index): Level01 => ((choice >> index) & 1) as Level01);
      const taken = step(walk, next.state, setting, choice >> inputs.length);
      if (typeof taken === 'string') return { kind: 'different', name: taken };
      const key = keyOf(walk, taken);
      if (!seen.has(key)) {
        seen.add(key);
        waiting.push({ state: taken, at: takeBoth(walk.sides) });
      }
      if (steps % 64 === 0) yield;
    }
  }
  return { kind: 'all', states: seen.size, sampledOld };
}

/** One run; a reset comes rarely, so that something else happens between. */
function* walkOn(walk: Walk, start: State): Generator<void, Explored> {
  const { clocks, inputs, sampledOld } = walk.sides;
  const random = createRandom();
  const isRare = () => random() && random() && random() && random() && random() && random();
  let state = start;
  for (let edge = 0; edge < runEdges; edge++) {
    const setting = inputs.map(({ restLevel, resets }): Level01 => {
      if (resets) return isRare() ? ((1 - restLevel) as Level01) : restLevel;
      return random() ? 1 : 0;
    });
    const taken = step(walk, state, setting, clocks.length === 1 ? 0 : pick(random, clocks.length));
    if (typeof taken === 'string') return { kind: 'different', name: taken };
    state = taken;
    if (edge % 64 === 0) yield;
  }
  return { kind: 'run', edges: runEdges, sampledOld };
}

function pick(random: () => boolean, count: number): number {
  let number = 0;
  for (let bit = 0; bit < 8; bit++) number = number * 2 + (random() ? 1 : 0);
  return number % count;
}

/** Inputs, then an edge of one clock; the name of what reads otherwise before that edge. */
function step(walk: Walk, state: State, setting: readonly Level01[], clock: number): State | string {
  const { clocks, inputs, machines } = walk.sides;
  const { later, still } = walk.readings;
  const held = clocks.findIndex(({ name }) => name === still?.clock);
  const isHeld = (name: string) => held >= 0 && state.levels[held] !== still?.level && still?.names.includes(name);
  const now = inputs.map(({ name }, index) => (isHeld(name) === true ? state.inputs[index] : setting[index]));
  machines.forEach((machine, side) => {
    for (const [index, { bits }] of inputs.entries()) setSourceBit(machine, bits[side], now[index]);
    advance(machine);
  });
  const other = differing(walk, state.owed);
  if (other !== null) return other;
  const level = (1 - state.levels[clock]) as Level01;
  const isDue = later !== null && later.clock === clocks[clock].name && later.level === level;
  const owed = isDue ? digitsOf(machines[0], walk.later, 0) : state.owed;
  machines.forEach((machine, side) => {
    setSourceBit(machine, clocks[clock].bits[side], level);
    advance(machine);
  });
  return { levels: state.levels.map((one, index) => (index === clock ? level : one)), inputs: now, owed };
}

/** What the first design does not know is no difference. */
function differing({ later, same, sides: { machines } }: Walk, owed: string | null): string | null {
  const isOther = (wanted: string, read: string) => (wanted === '0' || wanted === '1') && wanted !== read;
  const left = digitsOf(machines[0], same, 0);
  const right = digitsOf(machines[1], same, 1);
  const found = same.findIndex((_, index) => isOther(left[index], right[index]));
  if (found >= 0) return same[found].name;
  if (owed === null) return null;
  const late = digitsOf(machines[1], later, 1);
  return later.find((_, index) => isOther(owed[index], late[index]))?.name ?? null;
}

function digitsOf(machine: SettledMachine, shared: readonly Shared[], side: 0 | 1): string {
  return shared.map(({ bits }) => '01zx'[readBit(machine, bits[side])]).join('');
}

function keyOf({ limbs, sides: { inputs, machines } }: Walk, { inputs: levels, ...state }: State): string {
  const held = machines.map(({ values: { a, b } }, side) => limbs[side].map((limb) => `${a[limb]}/${b[limb]}`).join());
  return [...held, levels.filter((_, index) => inputs[index].isState).join(''), state.levels.join(''), state.owed].join(
    ';',
  );
}

function takeBoth({ machines }: Sides): Snapshots {
  return machines.map(takeSnapshot);
}

function restoreBoth({ machines }: Sides, snapshots: Snapshots): void {
  for (const [side, machine] of machines.entries()) restoreSnapshot(machine, snapshots[side]);
}

function workOf(machines: Sides['machines']): number {
  return machines[0].work + machines[1].work;
}
