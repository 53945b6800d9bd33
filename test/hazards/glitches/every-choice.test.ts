// Every choice of delays on a grid inside the triples, and one unit to both sides of each point, so that equal times come in
// either order, through the timed engine: what is certain glitches in all of them, what is possible in at least one, what
// is silent in none. Steps in which one bit changes are another finding's matter.

import { describe, expect, it } from 'vitest';
import type { DelayTriple } from '../../../server/src/netlist/netlist';
import { runTimed } from '../../predict/timed';
import { glitchesIn } from './glitched';
import { bitsOf, netlistOf, pinned, type RandomCircuit, randomCircuit, randomFrom, type Shape } from './random-ripple';

/** Grid points lie this far apart, so that one unit aside changes no order but that of equal times. ps */
const pitch = 100;
/** ns */
const period = 20;
const periods = 9;
const mostChoices = 1500;

/** `from>to` → whether y changed more often than needed, in every choice and in some. */
interface Seen {
  every: boolean;
  some: boolean;
  readonly from: string;
  readonly to: string;
}

function scaled(circuit: RandomCircuit): RandomCircuit {
  const isTriple = (value: unknown): value is DelayTriple =>
    typeof value === 'object' && value !== null && 'typ' in value;
  const up = (value: number) => (value + 1) * pitch;
  return JSON.parse(JSON.stringify(circuit), (_, value: unknown) =>
    isTriple(value) ? { min: up(value.min), typ: up(value.typ), max: up(value.max) } : value,
  ) as RandomCircuit;
}

function gridOf({ max, min }: DelayTriple): readonly number[] {
  const points = Array.from({ length: (max - min) / pitch + 1 }, (_, index) => min + index * pitch);
  return points.flatMap((point) => [point - 1, point + 1]);
}

function gridsOf(circuit: RandomCircuit): readonly (readonly number[])[] {
  const grids: (readonly number[])[] = [];
  pinned(circuit, (triple) => {
    grids.push(gridOf(triple));
    return 0;
  });
  return grids;
}

function* choicesOf(grids: readonly (readonly number[])[]): Generator<readonly number[]> {
  const count = grids.reduce((product, grid) => product * grid.length, 1);
  for (let choice = 0; choice < count; choice++) {
    let left = choice;
    yield grids.map((grid) => {
      const point = grid[left % grid.length];
      left = Math.floor(left / grid.length);
      return point;
    });
  }
}

function runAll(circuit: RandomCircuit, grids: readonly (readonly number[])[]): readonly Seen[] {
  const seen = new Map<string, Seen>();
  for (const choice of choicesOf(grids)) {
    let next = 0;
    for (const { from, isDirty, to } of runOnce(pinned(circuit, () => choice[next++]))) {
      const key = `${from}>${to}`;
      const known = seen.get(key) ?? { every: true, some: false, from, to };
      known.every &&= isDirty;
      known.some ||= isDirty;
      seen.set(key, known);
    }
  }
  return [...seen.values()];
}

function runOnce(circuit: RandomCircuit) {
  const clocks = { clk: { period, phase: period / 2, high: period / 2 } };
  const timed = runTimed(netlistOf(circuit), { clocks, until: period * periods + period / 2 });
  const changes = timed.wave('y').split(' ').slice(1);
  const times = changes.map((change) => Number(/@([\d.]+)/.exec(change)?.[1]));
  return Array.from({ length: periods - 1 }, (_, index) => {
    const [edge, next] = [period * (index + 1), period * (index + 2)];
    const inside = times.filter((time) => time >= edge && time < next).length;
    const isSame = timed.before('y', edge) === timed.before('y', next);
    return { from: timed.before('q', edge), to: timed.before('q', next), isDirty: inside > (isSame ? 0 : 1) };
  });
}

/** Verdicts by the bits that the decode hears; `certain` where one of several steps that look alike is. */
function verdictsOf(circuit: RandomCircuit): (step: Seen) => string {
  const { glitches } = glitchesIn(netlistOf(circuit));
  const verdicts = new Map<string, string>();
  for (const { certainty, transitions } of glitches) {
    for (const { from, to } of transitions) verdicts.set(`${from}>${to}`, certainty);
  }
  const heard = (glitches[0]?.registers ?? []).map(
    ({ name }) => circuit.bits.length - 1 - Number(/\d+/.exec(name)?.[0]),
  );
  const number = (digits: string) => BigInt(`0b0${heard.map((bit) => digits[bit]).join('')}`);
  return ({ from, to }) => verdicts.get(`${number(from)}>${number(to)}`) ?? 'silent';
}

function changedBits({ bits, decode }: RandomCircuit, { from, to }: Seen): number {
  return bitsOf(decode, bits.length).filter((bit) => from[bits.length - 1 - bit] !== to[bits.length - 1 - bit]).length;
}

/** Neighbors among the seeds of such a generator begin alike: all first bits would be of one kind. The factor is odd. */
function spread(seed: number): number {
  return Math.imul(seed, 0x9e3779b1);
}

const ripple: Shape = { bits: 2, longest: 3, hasLast: 'never' };
const gates: Shape = { bits: 2, longest: 2, hasLast: 'sometimes', lateOneIn: 3 };
const flat: Shape = { bits: 3, longest: 1, hasLast: 'never', clocking: 'flat' };

describe('every choice of delays through the timed engine', () => {
  it.each([
    ['ripple', ripple, 500, 40],
    ['gates that take time', gates, 700, 240],
    ['registers of one clock', flat, 900, 80],
  ] as const)('%s: seeds from %o %i, %i of them', { timeout: 180_000 }, (_, shape, first, count) => {
    const told = { certain: 0, possible: 0, silent: 0 };
    for (let seed = first; seed < first + count; seed++) {
      const circuit = scaled(randomCircuit(randomFrom(spread(seed)), shape));
      const grids = gridsOf(circuit);
      if (grids.reduce((product, grid) => product * grid.length, 1) > mostChoices) continue;
      const verdictOf = verdictsOf(circuit);
      for (const step of runAll(circuit, grids).filter((one) => changedBits(circuit, one) > 1)) {
        const verdict = verdictOf(step) as keyof typeof told;
        told[verdict] += 1;
        const found = step.every ? 'certain' : step.some ? 'possible' : 'silent';
        expect({ seed, from: step.from, to: step.to, verdict }).toEqual({
          seed,
          from: step.from,
          to: step.to,
          verdict: found,
        });
      }
    }
    process.stdout.write(`${JSON.stringify(told)}\n`);
    expect(told.possible + told.certain).toBeGreaterThan(0);
    expect(told.silent).toBeGreaterThan(0);
  });
});
