// Cures of decodes: registered in the same period from the next state, or one period later as they stand.

import { describe, expect, test } from 'vitest';
import { curesOf } from './tried';

const holds = (tried: { readonly cure: { readonly proof: { readonly holds: boolean } } }) => tried.cure.proof.holds;

describe('decoded-glitch', () => {
  test('a continuous assignment: a register beside it, reset to what the decode gives then', async () => {
    const [next, late, ...others] = await curesOf(
      `module m(input clk, rst_n, output [1:0] lamp);
  reg [2:0] n;
  always @(posedge clk or negedge rst_n)
    if (!rst_n) n <= 3;
    else n <= n + 1;
  assign lamp = {n == 5, (n == 3)};
endmodule
`,
      'decoded-glitch',
    );
    expect(others).toEqual([]);
    expect(next.text).toContain(
      '  wire [2:0] n_next = n + 1;\n  always @(posedge clk or negedge rst_n)\n    if (!rst_n) n <= 3;',
    );
    expect(next.text).toContain(`  reg [1:0] lamp_held;
  always @(posedge clk or negedge rst_n)
    if (!rst_n) lamp_held <= 2'b01;
    else lamp_held <= {n_next == 5, (n_next == 3)};
  assign lamp = lamp_held;
`);
    expect(next.cure.proof).toMatchObject({ holds: true, gained: [] });
    expect(late.text).toContain(`  reg [1:0] lamp_held;
  always @(posedge clk) lamp_held <= {n == 5, (n == 3)};
  assign lamp = lamp_held;
`);
    expect(late.cure.proof.says.at(-1)).toContain('every output (lamp one edge later) in every state');
    expect(late.cure.differs).toEqual(['lamp comes one period of clk later than before']);
    expect(holds(late)).toBe(true);
  });

  test('a process of its own becomes clocked; a state machine has its next state already', async () => {
    const [next, late] = await curesOf(
      `module m(input clk, rst, go, output reg [1:0] lamp, output reg buzz);
  reg [1:0] s, nxt;
  always @* begin
    nxt = s;
    case (s)
      0: if (go) nxt = 2;
      2: nxt = 1;
      default: nxt = 0;
    endcase
  end
  always @(posedge clk or posedge rst) if (rst) s <= 0; else s <= nxt;
  always @(*) begin
    lamp = 2'b00; // off
    buzz = s <= 1;
    if (s == 3) lamp = 2;
  end
endmodule
`,
      'decoded-glitch',
    );
    expect(
      next.text,
    ).toContain(`  always @(posedge clk or posedge rst) if (rst) begin lamp <= 2'b00; buzz <= 1'b1; end else begin
    lamp <= 2'b00; // off
    buzz <= nxt <= 1;
    if (nxt == 3) lamp <= 2;
  end
`);
    expect(holds(next)).toBe(true);
    expect(late.text).toContain("  always @(posedge clk) begin\n    lamp <= 2'b00; // off\n    buzz <= s <= 1;");
    expect(holds(late)).toBe(true);
  });

  test('without a reset it starts with what the start decodes to', async () => {
    const [next] = await curesOf(
      `module m(input clk, output y);
  reg [1:0] n = 2'd1;
  always @(posedge clk) n <= n - 1;
  assign y = n[0] ^ n[1];
endmodule
`,
      'decoded-glitch',
    );
    expect(next.text).toContain("  initial y_held = 1'b1;\n  always @(posedge clk) y_held <= n_next[0] ^ n_next[1];");
    expect(holds(next)).toBe(true);
  });

  test('of a ripple counter only one period later', async () => {
    const [late, ...others] = await curesOf(
      `module m(input clk, output zero);
  reg [2:0] q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  always @(negedge q[1]) q[2] <= ~q[2];
  assign zero = ~|q;
endmodule
`,
      'decoded-glitch',
    );
    expect(others).toEqual([]);
    expect(late.text).toContain('always @(negedge clk) zero_held <= ~|q;');
    expect(holds(late)).toBe(true);
  });

  test('of an input only one period later', async () => {
    const tried = await curesOf(
      `module m(input clk, en, output y);
  reg [1:0] n = 0;
  always @(posedge clk) n <= n + 1;
  assign y = (n == 2) & en;
endmodule
`,
      'decoded-glitch',
    );
    expect(tried.map(({ cure }) => cure.title)).toEqual(['register y at clk: one period later']);
    expect(tried.every(holds)).toBe(true);
  });
});

test('glitch-into-clock: the decode that clocks comes from a flip-flop', async () => {
  const [next] = await curesOf(
    `module m(input clk, d, output reg q);
  reg [1:0] n = 0;
  wire tick = (n == 2);
  initial q = 0;
  always @(posedge clk) n <= n + 1;
  always @(posedge tick) q <= d;
endmodule
`,
    'glitch-into-clock',
  );
  expect(next.text).toContain('wire tick = tick_held;');
  expect(next.cure.proof).toMatchObject({ holds: true, gained: [] });
});

test('a decode that resets another register cannot come later', async () => {
  const tried = await curesOf(
    `module m(input clk, d, output reg [2:0] q, output reg r);
  wire clear = (q == 2);
  initial {q, r} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge clk or posedge clear) if (clear) r <= 0; else r <= d;
endmodule
`,
    'glitch-into-reset',
  );
  expect(tried.map(({ cure }) => cure.title)).toEqual(['register clear at clk: one period later']);
  expect(tried[0].cure.proof).toMatchObject({ holds: false });
  expect(tried[0].cure.proof.says.at(-1)).toBe('r reads otherwise');
});
