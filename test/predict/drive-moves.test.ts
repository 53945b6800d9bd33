// Inputs that move: what a shape means, change by change, and where it ends.
import { describe, expect, it } from 'vitest';
import { bitsOf, toBinary } from '../../server/src/netlist/four-state';
import type { DriveInput, InputShape } from '../../server/src/predict/drive';
import { createInputEdges, restOf } from '../../server/src/predict/drive-moves';
import { movesOfShape, randomNumbers } from '../../server/src/predict/drive-shapes';

function meant(shape: InputShape, width = 1) {
  const found = movesOfShape(shape, width);
  if ('misfit' in found) return `misfit ${found.misfit}`;
  const { changes, everyPs } = found.moves;
  const words = changes.map(({ at, value }) => `${toBinary(value)} at ${at}`);
  return [toBinary(found.value), ...words, ...(everyPs === null ? [] : [`every ${everyPs}`])].join(', ');
}

function inputOf(shape: InputShape, width = 1): DriveInput {
  const found = movesOfShape(shape, width);
  if ('misfit' in found) throw new Error(found.misfit);
  return { signal: 0 as DriveInput['signal'], name: 'd', ...found, source: 'given', why: null };
}

const levels = (values: readonly (readonly [number, string])[], everyPs: number | null = null): InputShape => ({
  kind: 'levels',
  levels: values.map(([atPs, value]) => ({ atPs, value })),
  everyPs,
});

const pulse = { kind: 'pulse', atPs: 30, widthPs: 10, everyPs: null, active: 'high' } as const;
const button = { kind: 'button', pressPs: 100, releasePs: 500, bouncePs: 40, bounces: 2, active: 'low' } as const;

describe('a shape', () => {
  it('of levels is what it says', () => {
    expect(
      meant(
        levels([
          [0, '3'],
          [20, "4'b1x00"],
          [50, "'hf"],
        ]),
        4,
      ),
    ).toBe('0011, 1x00 at 20, 1111 at 50');
  });

  it('of levels that come again begins again with the first', () => {
    expect(
      meant(
        levels(
          [
            [0, '0'],
            [20, '1'],
          ],
          50,
        ),
      ),
    ).toBe('0, 1 at 20, 0 at 50, every 50');
  });

  it('of a pulse goes there and back', () => {
    expect(meant(pulse)).toBe('0, 1 at 30, 0 at 40');
    expect(meant({ ...pulse, active: 'low', everyPs: 100 })).toBe('1, 0 at 30, 1 at 40, every 100');
  });

  it('of a button bounces each time and ends where it was moved to', () => {
    expect(meant(button)).toBe(
      '1, 0 at 100, 1 at 110, 0 at 120, 1 at 130, 0 at 140, 1 at 500, 0 at 510, 1 at 520, 0 at 530, 1 at 540',
    );
    expect(meant({ ...button, bounces: 0, releasePs: null })).toBe('1, 0 at 100');
  });

  it('that does not fit the port says what does not', () => {
    expect(
      meant(
        levels([
          [0, '0'],
          [20, '4'],
        ]),
        2,
      ),
    ).toBe('misfit 4');
    expect(meant(pulse, 2)).toBe('misfit pulse');
  });
});

describe('the changes of a bit', () => {
  it('come one after the other, later each time round', () => {
    const edges = createInputEdges(
      inputOf(
        levels(
          [
            [0, '0'],
            [20, '2'],
          ],
          50,
        ),
        2,
      ).moves ?? never(),
      1,
    );
    const seen: string[] = [];
    for (let count = 0; count < 5; count++, edges.advance()) seen.push(`${edges.level} at ${edges.time}`);
    expect(seen).toEqual(['1 at 20', '0 at 50', '1 at 70', '0 at 100', '1 at 120']);
  });

  it('end where nothing comes again', () => {
    const edges = createInputEdges(inputOf(pulse).moves ?? never(), 0);
    edges.advance();
    edges.advance();
    expect(edges.time).toBe(null);
  });
});

describe('an input comes to rest', () => {
  it('at its last level, or never', () => {
    expect(toBinary(restOf(inputOf(button)))).toBe('1');
    expect(
      toBinary(
        restOf(
          inputOf(
            levels([
              [0, '0'],
              [9, '1'],
            ]),
          ),
        ),
      ),
    ).toBe('1');
    expect(toBinary(restOf(inputOf({ ...pulse, everyPs: 90 })))).toBe('x');
    expect(toBinary(restOf({ ...inputOf(pulse), value: bitsOf('1'), moves: null }))).toBe('1');
  });
});

function never(): never {
  throw new Error('it moves');
}

describe('a serial line', () => {
  const line = { kind: 'serial', atPs: 1_000_000, baud: 115_200, bytes: [0x55] } as const;

  it('rests high, begins with 0, sends the lowest bit first and stops with 1', () => {
    // 0x55 alternates: every one of the ten bits is a change, and the stop bit the last.
    const found = movesOfShape(line, 1);
    if ('misfit' in found) throw new Error(found.misfit);
    expect(toBinary(found.value)).toBe('1');
    expect(found.moves.changes.map(({ value }) => toBinary(value)).join('')).toBe('0101010101');
    // FUN-24: a bit at 115,200 baud takes 8.6806 us; computed, the frame of ten bits 86.806 us.
    const times = found.moves.changes.map(({ at }) => at - 1_000_000);
    expect(times.slice(0, 3)).toEqual([0, 8_680_556, 17_361_111]);
    expect(times[9]).toBe(78_125_000);
  });

  it('sends bytes one behind the other', () => {
    // 0x00 is low for nine bits, then a stop bit; 0xff low for its start bit alone.
    expect(meant({ kind: 'serial', atPs: 100, baud: 1e10, bytes: [0, 255] })).toBe(
      '1, 0 at 100, 1 at 1000, 0 at 1100, 1 at 1200',
    );
  });

  it('is no value of a bus', () => {
    expect(meant(line, 8)).toBe('misfit serial');
  });
});

describe('values at random', () => {
  it('come from the published generator', () => {
    // Park and Miller, "Random number generators: good ones are hard to find", CACM 31 (1988), 1195: from seed 1 the
    // 10,000th number is 1043618065; ISO C++ asks the same of minstd_rand0 (both from memory).
    const numbers = randomNumbers(1);
    for (let index = 1; index < 10_000; index++) numbers.next();
    expect(numbers.next().value).toBe(1_043_618_065);
  });

  it('are the same for the same seed, others for another, and move at every step', () => {
    const shape = { kind: 'random', atPs: 5, stepPs: 20, seed: 7 } as const;
    expect(meant(shape, 8)).toBe(meant(shape, 8));
    expect(meant(shape, 8)).not.toBe(meant({ ...shape, seed: 8 }, 8));
    const found = movesOfShape(shape, 8);
    if ('misfit' in found) throw new Error(found.misfit);
    const { changes, everyPs } = found.moves;
    expect(changes.every(({ at }, index) => at === 5 + 20 * index)).toBe(true);
    expect([changes.length * 20, everyPs]).toEqual([20_480, 20_480]);
    expect(changes[changes.length - 1].value).toEqual(found.value);
    // All 256 values turn up among 1,024 of them but a few: no bit is stuck.
    expect(new Set(changes.map(({ value }) => toBinary(value))).size).toBeGreaterThan(230);
  });

  it('of the widest ports take bounded memory', () => {
    const found = movesOfShape({ kind: 'random', atPs: 5, stepPs: 20, seed: 7 }, 65_536);
    expect('misfit' in found ? 0 : found.moves.changes.length).toBe(4);
  });
});
