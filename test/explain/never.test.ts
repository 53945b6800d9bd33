// Why a signal never changes, and how long a change took from its origin: worked out by hand on small circuits. The clock
// rises at 10 ns and every 20 ns; flip-flops take 1 ns.
import { describe, expect, it } from 'vitest';
import { accountWords } from '../../server/src/explain/account-words';
import { accountsOf, type ReportOptions } from '../tools/report-of';

async function told(text: string, name: string, ps: number, options: ReportOptions = {}): Promise<readonly string[]> {
  const [account] = await accountsOf([{ path: 'm.v', text }], name, ps, options);
  return accountWords(account);
}

const counting = (condition: string) => `module m(input clk, en, output reg q);
  reg [1:0] cnt = 0;
  initial q = 0;
  always @(posedge clk) cnt <= (cnt == 2'd2) ? 2'd0 : cnt + 2'd1;
  always @(posedge clk)
    if (${condition}) q <= 1'b1;
endmodule`;

const held = { project: JSON.stringify({ inputs: { en: '0' } }) };

describe('what never changes', () => {
  it('is held by an input, by way of its condition', async () => {
    const lines = await told(counting('en & cnt[0]'), 'q', 200_000, held);
    expect(lines.slice(1, 3)).toEqual([
      'q is assigned only if en & cnt[0], which does not hold at any edge (line 6)',
      'en is held at 0, as stated (line 1)',
    ]);
  });

  it('says by which comparison it never comes to be, and what is compared takes instead', async () => {
    const lines = await told(counting("cnt == 2'd3"), 'q', 200_000);
    expect(lines).toContain("cnt == 2'd3 is never true: cnt is 0, 1 and 2 (line 6)");
  });

  it('says which comparison can never hold by its width', async () => {
    const lines = await told(counting("{1'b0, cnt} == 3'd5"), 'q', 200_000);
    expect(lines.some((line) => line.includes('can never hold, whatever its operands are'))).toBe(true);
  });

  it('has a clock that does not move', async () => {
    const text = `module m(input clk, en, output reg q);
      initial q = 0;
      wire gated = clk & en;
      always @(posedge gated) q <= ~q;
    endmodule`;
    const lines = await told(text, 'q', 200_000, held);
    expect(lines[1]).toContain('q gets no edge that it acts on: its clock gated does not make one');
    expect(lines).toContain('en is held at 0, as stated (line 1)');
  });

  it('is held by a control', async () => {
    const text = `module m(input clk, en, output reg q);
      always @(posedge clk or negedge en) if (!en) q <= 0; else q <= ~q;
    endmodule`;
    const lines = await told(text, 'q', 200_000, held);
    expect(lines[1]).toContain('q is held at 0 by en, which stays low');
  });

  it('samples what it holds already', async () => {
    const text = `module m(input clk, output reg q);
      initial q = 0;
      always @(posedge clk) q <= 1'b0;
    endmodule`;
    const lines = await told(text, 'q', 200_000);
    expect(lines[1]).toContain('q samples 0 at every edge, which it holds already');
  });

  it('is told of as what changes where it does change at another time', async () => {
    const lines = await told(counting("cnt == 2'd2"), 'q', 15_000);
    expect(lines.join('\n')).not.toContain('in the run that is shown');
  });
});

describe('the latency of a change', () => {
  const ripple = `module m(input clk, output reg a, b, output y);
    initial {a, b} = 0;
    always @(negedge clk) a <= ~a;
    always @(negedge a) b <= ~b;
    assign y = ~b;
  endmodule`;

  it('is the sum of its parts, from the drive to the change', async () => {
    // 74HC393 at 5 V: 12 ns to the first output, 5 ns from output to output; the clock falls at 20 ns and 40 ns.
    const [account] = await accountsOf([{ path: 'm.v', text: ripple }], 'b', 57_000, { delays: '74HC393' });
    expect(account.latency).toEqual({
      from: 'clk',
      ps: 17_000,
      parts: [
        { signal: 'a', ps: 12_000 },
        { signal: 'b', ps: 5_000 },
      ],
    });
    expect(accountWords(account)).toContain('in all 17 ns from clk: a 12 ns and b 5 ns');
  });

  it('is not told of a single leg, nor of what did not change', async () => {
    const [first] = await accountsOf([{ path: 'm.v', text: ripple }], 'a', 21_000);
    expect(first.latency?.ps).toBe(1_000);
    expect(accountWords(first).join('\n')).not.toContain('in all');
    const [still] = await accountsOf([{ path: 'm.v', text: ripple }], 'b', 25_000);
    expect(still.latency).toBeNull();
  });
});
