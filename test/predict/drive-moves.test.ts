// Inputs that move: what a shape means, change by change, and where it ends.
import { describe, expect, it } from 'vitest';
import { bitsOf, toBinary } from '../../server/src/netlist/four-state';
import type { DriveInput, InputShape } from '../../server/src/predict/drive';
import { createInputEdges, movesOfShape, restOf } from '../../server/src/predict/drive-moves';

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
