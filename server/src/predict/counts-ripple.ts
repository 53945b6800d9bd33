// A chain of even toggles longer than can be run: its readings in closed form. Where every stage answers to its
// predecessor's fall the readings count up; a stage that answers to a rise does so to the fall of the opposite level, so
// with those bits turned over the readings count up too. Period and modulus are 2 to the number of stages.

import { latestTriple, zeroTriple } from '../delays/triple';
import type { DelayTriple } from '../netlist/netlist';
import { type CountEntry, offsetsOf } from './counts-entry';
import type { CountContext } from './counts-run';
import { passesOfCount } from './counts-steps';
import type { CountStep, SequenceKind } from './prediction';
import type { EvenToggle } from './settled-toggles';

export interface RippleCount {
  readonly period: number;
  readonly kind: SequenceKind;
  /** Reading number `index`, the start being number 0. */
  at(index: number): bigint;
  stepAt(index: number): CountStep;
  readonly settle: DelayTriple | null;
  readonly worst: { readonly from: bigint; readonly to: bigint } | null;
}

/** Null where the group is no chain of even toggles, each clocked by the one before. */
export function rippleCountOf(
  context: CountContext,
  entry: CountEntry,
  toggles: ReadonlyMap<number, EvenToggle>,
  start: bigint,
): RippleCount | null {
  const { registers } = entry;
  const own = registers.map((id) => toggles.get(id));
  if (registers.length > 52 || !isChain(registers, own)) return null;
  const turned = turnedBits(own);
  const size = 1n << BigInt(registers.length);
  const at = (index: number): bigint => (((start ^ turned) + BigInt(index)) % size) ^ turned;
  const offsets = offsetsOf(context.netlist, entry);
  return {
    period: 2 ** registers.length,
    kind: turned === 0n ? 'up' : turned === size / 2n - 1n ? 'down' : 'other',
    at,
    stepAt(index) {
      const [from, to] = [at(index), at(index + 1)];
      const passes = passesOfCount(context, from, to, entry, offsets, () => 1);
      return { from: String(from), to: String(to), passes };
    },
    ...latestOf(context, entry, turned),
  };
}

function isChain(registers: CountEntry['registers'], own: readonly (EvenToggle | undefined)[]): own is EvenToggle[] {
  return own.every(
    (toggle, index) => toggle !== undefined && (index === 0 || toggle.clockedBy === registers[index - 1]),
  );
}

/** Bits whose rise, not fall, the next stage answers to. */
function turnedBits(own: readonly EvenToggle[]): bigint {
  return own.slice(1).reduce((bits, { answersTo }, index) => bits | (BigInt(answersTo) << BigInt(index)), 0n);
}

/** Over the whole period each bit changes both ways, so each direction of each output counts. */
function latestOf(
  { arrivals }: CountContext,
  { registers }: CountEntry,
  turned: bigint,
): Pick<RippleCount, 'settle' | 'worst'> {
  const size = 1n << BigInt(registers.length);
  let settle = zeroTriple;
  let worst: RippleCount['worst'] = null;
  for (const [bit, register] of registers.entries()) {
    const { rise, fall } = arrivals.outputOf(register);
    if (rise === null || fall === null) return { settle: null, worst: null };
    for (const [level, time] of [
      [1n, rise],
      [0n, fall],
    ] as const) {
      if (time.max > settle.max) worst = firstChange(BigInt(bit), level ^ ((turned >> BigInt(bit)) & 1n));
      settle = latestTriple(settle, time);
    }
  }
  return { settle, worst };

  /** The least count at which a bit goes to this level: all bits below it are ones, and it is not yet there. */
  function firstChange(bit: bigint, level: bigint): RippleCount['worst'] {
    const before = level === 1n ? (1n << bit) - 1n : (2n << bit) - 1n;
    return { from: before ^ turned, to: ((before + 1n) % size) ^ turned };
  }
}
