// Definitions 1 to 3: roots, stages and root edges. Circuits by hand; the words of each test are the circuit's margin.
import { describe, expect, it } from 'vitest';
import { circuit } from '../tools/circuit';
import { describeClocks } from './describe-clocks';

describe('ripple', () => {
  it('counts one stage per register output and follows each register by its own clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    c.registers(
      'q',
      { range: [3, 0] },
      [0, 1, 2, 3].map((low) => ({
        low,
        width: 1,
        clock: low === 0 ? clk : (q) => q.bit(low - 1),
        edge: 'falling' as const,
        data: (q) => c.not(q.bit(low)),
      })),
    );
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      'q[0]': 'clk falling, clk falling, stage 1, clk',
      'q[1]': 'q[0] falling, clk falling, stage 2, clk',
      'q[2]': 'q[1] falling, clk falling, stage 3, clk',
      'q[3]': 'q[2] falling, clk falling, stage 4, clk',
    });
    expect(found.chains).toEqual(['q[0] > q[1] > q[2] > q[3]']);
    expect(found.clocks).toEqual({
      clk: 'root',
      'q[0]': 'derived of clk',
      'q[1]': 'derived of q[0]',
      'q[2]': 'derived of q[1]',
    });
  });
});
