// Cures: what each writes, what is tried of it and said, and what it refuses. The text after a cure is read again as any.

import { describe, expect, test } from 'vitest';
import { proposalsFor } from '../../server/src/cures/all';
import type { Cure } from '../../server/src/cures/cure';
import { withEdits } from '../../server/src/cures/edits';
import { proveCure } from '../../server/src/cures/prove';
import { readyParser } from '../tools/parser';
import { reportOf, studyOf } from '../tools/report-of';

interface Tried {
  readonly cure: Cure;
  readonly text: string;
}

/** The first proposal for the first finding of this kind; null where there is none, or where the text cannot be changed. */
async function cureOf(text: string, id: string, project = '{}'): Promise<Tried | null> {
  const files = [{ path: 'a.v', text }];
  const opened = await studyOf(files, { project });
  const facts = toEnd(opened.design());
  const finding = facts?.hazards.findings.find((one) => one.id === id);
  if (facts === null || finding === undefined) throw new Error(`there is no ${id}`);
  const [proposal] = proposalsFor({ reading: toEnd(opened.reading()), facts }, finding);
  if (proposal === undefined) return null;
  const cure = toEnd(proveCure(opened, await readyParser(), finding, proposal));
  return cure === null ? null : { cure, text: withEdits(files, cure.edits)[0].text };
}

function toEnd<Result>(steps: Generator<void, Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

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
    expect(tried?.cure.proof.says).toContain('the same readings before each of 1024 edges of clk');
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

  test('what it cannot rewrite it leaves: instances, and stages that do more than turn over', async () => {
    const instances = `module t(input c, output reg q); initial q = 0; always @(negedge c) q <= ~q; endmodule
module m(input clk, output [1:0] q); t a(clk, q[0]); t b(q[0], q[1]); endmodule`;
    expect(await cureOf(instances, 'ripple-chain')).toBeNull();
    const johnson = falling.replace('q[2] <= ~q[2]', 'q[2] <= q[2] ^ 1');
    expect(await cureOf(johnson, 'ripple-chain')).toBeNull();
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

test('unintended-latch: a value first', async () => {
  const tried = await cureOf(
    `module m(input [1:0] s, input d, output reg y);
  always @* begin
    case (s)
      0: y = d;
      1: y = ~d;
    endcase
  end
endmodule
`,
    'unintended-latch',
  );
  expect(tried?.text).toContain('  always @* begin\n    y = 0;\n    case (s)\n');
  expect(tried?.cure.proof.holds).toBe(true);
  expect(tried?.cure.differs).toEqual(['where nothing assigns y, it is 0 now instead of what it was before']);
});

describe('mixed-assignment', () => {
  const text = (body: string) => `module m(input clk, d, e, output reg t, u, w);
  always @(posedge clk) begin ${body} end
  always @(posedge clk) w <= t;
endmodule
`;

  test('<= where the circuit stays the same, proven for all states', async () => {
    const tried = await cureOf(text('t = d & ~t; u <= e;'), 'mixed-assignment');
    expect(tried?.text).toContain('begin t <= d & ~t; u <= e; end');
    expect(tried?.cure.proof.holds).toBe(true);
    expect(tried?.cure.proof.says.at(-1)).toContain('in every state, for all inputs');
  });

  test('not where the process reads what it has just written', async () => {
    const tried = await cureOf(text('t = d; u <= t & e;'), 'mixed-assignment');
    expect(tried?.cure.proof).toMatchObject({ holds: false });
    expect(tried?.cure.proof.says.at(-1)).toBe('u would get another value');
  });
});

test('stale-sensitivity: @*, and the circuit is the same', async () => {
  const tried = await cureOf(
    'module m(input a, b, output reg y); always @(a /* and b */) y = a & b; endmodule',
    'stale-sensitivity',
  );
  expect(tried?.text).toBe('module m(input a, b, output reg y); always @* y = a & b; endmodule');
  expect(tried?.cure.proof.holds).toBe(true);
});
