// Cures: what each writes, what is tried of it and said, and what it refuses. The text after a cure is read again as any.

import { describe, expect, test } from 'vitest';
import { reportOf } from '../tools/report-of';
import { cureOf } from './tried';

const findingsOf = async (text: string) => (await reportOf([{ path: 'a.v', text }])).findings.map(({ id }) => id);

describe('ripple-chain', () => {
  const falling = `module m(input clk, output reg [2:0] q);
  initial q = 0;
  always @(negedge clk)  q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1]; // second
  always @(negedge q[1]) q[2] <= ~q[2];
endmodule
`;

  test('falling stages get one clock and enables, and read the same', async () => {
    const tried = await cureOf(falling, 'ripple-chain');
    expect(tried?.text).toBe(`module m(input clk, output reg [2:0] q);
  initial q = 0;
  always @(negedge clk)  q[0] <= ~q[0];
  always @(negedge clk) if (q[0]) q[1] <= ~q[1]; // second
  always @(negedge clk) if (q[0] & q[1]) q[2] <= ~q[2];
endmodule
`);
    expect(tried?.cure.proof.holds).toBe(true);
    expect(tried?.cure.proof.says).toContain(
      'the same readings of each of 3 registers and every output in every state that inputs can lead to from the start (16 states explored)',
    );
    expect(tried?.cure.differs[0]).toContain('reads the value from before');
    expect(await findingsOf(tried?.text ?? '')).toEqual([]);
  });

  test('rising stages and a reset before them', async () => {
    const text = `module m(input clk, rst, output reg [2:0] q);
  always @(posedge clk or posedge rst) if (rst) q[0] <= 0; else q[0] <= ~q[0];
  always @(posedge q[0] or posedge rst) if (rst) q[1] <= 0; else q[1] <= ~q[1];
  always @(posedge q[1] or posedge rst) begin
    if (rst) q[2] <= 0;
    else q[2] <= ~q[2];
  end
endmodule
`;
    const tried = await cureOf(text, 'ripple-chain');
    expect(tried?.text).toContain(
      'always @(posedge clk or posedge rst) if (rst) q[1] <= 0; else if (~q[0]) q[1] <= ~q[1];',
    );
    expect(tried?.text).toContain('else if (~q[0] & ~q[1]) q[2] <= ~q[2];');
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('what it cannot rewrite it leaves: instances, and stages that a generate loop makes', async () => {
    const instances = `module t(input c, output reg q); initial q = 0; always @(negedge c) q <= ~q; endmodule
module m(input clk, output [1:0] q); t a(clk, q[0]); t b(q[0], q[1]); endmodule`;
    expect(await cureOf(instances, 'ripple-chain')).toBeNull();
    const loop = `module m(input clk, output reg [3:0] q);
  genvar i;
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  generate for (i = 1; i < 4; i = i + 1) begin : g always @(negedge q[i-1]) q[i] <= ~q[i]; end endgenerate
endmodule
`;
    expect(await cureOf(loop, 'ripple-chain')).toBeNull();
  });

  test('a stage that counts, one that an input enables, one that another process of its clock shares', async () => {
    const text = `module m(input clk, en, d, output reg a, c, x, output reg [1:0] n);
  initial {a, c, x, n} = 0;
  always @(posedge clk) if (en) a <= ~a;
  always @(negedge a) n <= n + 1;
  always @(posedge n[1]) c <= !c;
  always @(posedge n[1]) x <= d;
endmodule
`;
    const tried = await cureOf(text, 'ripple-chain');
    expect(tried?.text).toContain('always @(posedge clk) if (en & a) n <= n + 1;');
    expect(tried?.text).toContain('always @(posedge clk) if (en & a & ~n[1] & n[0]) c <= !c;');
    expect(tried?.text).toContain('always @(posedge clk) if (en & a & ~n[1] & n[0]) x <= d;');
    expect(tried?.cure).toMatchObject({ asks: [], proof: { holds: true, gained: [] } });
  });

  test('asks where a stage samples what moves at the same root edge', async () => {
    const text = `module m(input clk, d, output reg go, a, b);
  initial {go, a, b} = 0;
  always @(posedge clk) go <= d;
  always @(posedge clk) a <= ~a;
  always @(negedge a) if (go) b <= ~b;
endmodule
`;
    const tried = await cureOf(text, 'ripple-chain');
    expect(tried?.cure.asks).toEqual(['b samples the value of go from before the edge of clk instead of after it']);
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('what a macro spells out is not rewritten', async () => {
    expect(
      await cureOf(
        `\`define STAGE(n, c) always @(negedge c) q[n] <= ~q[n];
module m(input clk, output reg [1:0] q); initial q = 0; \`STAGE(0, clk) \`STAGE(1, q[0]) endmodule`,
        'ripple-chain',
      ),
    ).toBeNull();
  });
});

describe('bare-crossing', () => {
  test('two flip-flops before the reader, at its clock and edge', async () => {
    const tried = await cureOf(
      `module m(input clk_a, clk_b, d, output reg [1:0] n);
  reg flag = 0;
  initial n = 0;
  always @(posedge clk_a) flag <= d;
  always @(negedge clk_b)
    if (flag) n <= n + 1;
endmodule
`,
      'bare-crossing',
    );
    expect(tried?.text).toContain(`  reg flag_meta, flag_sync;
  always @(negedge clk_b) begin
    flag_meta <= flag;
    flag_sync <= flag_meta;
  end
  always @(negedge clk_b)
    if (flag_sync) n <= n + 1;
`);
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('a name that is taken gets a number; lines keep their ends', async () => {
    const text =
      'module m(input a, b, d, output reg q, input s_meta);\r\n  reg s = 0;\r\n  always @(posedge a) s <= d;\r\n  always @(posedge b) q <= s & s_meta;\r\nendmodule\r\n';
    const tried = await cureOf(text, 'bare-crossing');
    expect(tried?.text).toContain('  reg s_meta_2, s_sync;\r\n  always @(posedge b) begin\r\n');
    expect(tried?.text.replaceAll('\r\n', '')).not.toContain('\n');
  });
});

test('a bus is not brought over bit by bit', async () => {
  const text = `module m(input a, b, input [3:0] d, output reg [3:0] q);
  reg [3:0] s = 0;
  always @(posedge a) s <= d;
  always @(posedge b) q <= s;
endmodule`;
  expect(await cureOf(text, 'bus-crossing')).toBeNull();
});

test('reset-release: acts at once, lets go in step', async () => {
  const text = `module m(input clk, rst_n, d, output reg q);
  sub u(.clk(clk), .rst_n(rst_n), .d(d));
  always @(posedge clk or negedge rst_n)
    if (!rst_n) q <= 0;
    else q <= d;
endmodule
module sub(input clk, rst_n, d);
  reg r;
  always @(posedge clk or negedge rst_n) if (!rst_n) r <= 0; else r <= d;
endmodule
`;
  const tried = await cureOf(text, 'reset-release');
  expect(tried?.text).toContain('sub u(.clk(clk), .rst_n(rst_n_in_step), .d(d));');
  expect(tried?.text).toContain('if (!rst_n_in_step) q <= 0;');
  expect(tried?.text).toContain("if (!rst_n) rst_n_steps <= 2'b00;");
  expect(tried?.cure.proof).toMatchObject({ holds: true, gained: [] });
});

test('stale-sensitivity: @*, and the circuit is the same', async () => {
  const tried = await cureOf(
    'module m(input a, b, output reg y); always @(a /* and b */) y = a & b; endmodule',
    'stale-sensitivity',
  );
  expect(tried?.text).toBe('module m(input a, b, output reg y); always @* y = a & b; endmodule');
  expect(tried?.cure.proof.holds).toBe(true);
});
