// Cures of storage and of the kinds of assignment: latches nobody meant, values that never lead back, `=` at a clock edge.

import { describe, expect, test } from 'vitest';
import { cureOf, curesOf } from './tried';

describe('unintended-latch', () => {
  const latch = (body: string, port = 'y') => `module m(input [1:0] s, input d, e, output reg ${port});
  ${body}
endmodule
`;

  test('a value first in a block', async () => {
    const tried = await cureOf(
      latch(`always @* begin
    case (s)
      0: y = d;
      1: y = ~d;
    endcase
  end`),
      'unintended-latch',
    );
    expect(tried?.text).toContain('  always @* begin\n    y = 0;\n    case (s)\n');
    expect(tried?.cure.proof.holds).toBe(true);
    expect(tried?.cure.differs).toEqual(['where nothing assigns y, it is 0 now instead of what it was before']);
  });

  test('the branch that a single choice lacks', async () => {
    const chain = await cureOf(latch('always_comb if (s[0]) y = e; else if (d) y = 1; // chain'), 'unintended-latch');
    expect(chain?.text).toContain('else if (d) y = 1; else y = 0; // chain');
    expect(chain?.cure.proof.holds).toBe(true);
    const choice = await cureOf(
      latch(`always_comb
    case (s)
      0: y = d;
      1: y = e;
    endcase`),
      'unintended-latch',
    );
    expect(choice?.text).toContain('      1: y = e;\n      default: y = 0;\n    endcase');
    expect(choice?.cure.proof.holds).toBe(true);
  });
});

describe('trap-state', () => {
  test('a ring without its one: all that is no value of it', async () => {
    const tried = await cureOf(
      `module m(input clk, rst, go, output reg [3:0] r);
  always @(posedge clk or posedge rst)
    if (rst) r <= 4'b0001;
    else if (go) r <= {r[2:0], r[3]};
endmodule
`,
      'trap-state',
    );
    expect(tried?.text).toContain(
      "else if (!(r == 4'd1 || r == 4'd2 || r == 4'd4 || r == 4'd8)) r <= 4'd1; else if (go) r <=",
    );
    expect(tried?.cure.proof).toMatchObject({ holds: true, gained: [] });
    expect(tried?.cure.differs[0]).toContain('from a value outside its sequence r goes to 1');
  });

  test('a machine without a default: the one value that is left', async () => {
    const tried = await cureOf(
      `module m(input clk, output reg [1:0] s);
  initial s = 0;
  always @(posedge clk)
    case (s)
      0: s <= 1;
      1: s <= 2;
      2: s <= 0;
    endcase
endmodule
`,
      'trap-state',
    );
    expect(tried?.text).toContain("    if (s == 2'd3) s <= 2'd0; else case (s)\n");
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('a shift register of zeros', async () => {
    const tried = await cureOf(
      `module m(input clk, output reg [3:0] r);
  initial r = 1;
  always @(posedge clk) r <= {r[2:0], r[3] ^ r[2]};
endmodule
`,
      'trap-state',
    );
    expect(tried?.text).toContain("if (r == 4'd0) r <= 4'd1; else r <= {r[2:0]");
    expect(tried?.cure.proof.holds).toBe(true);
  });
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
    expect(tried?.cure.differs[0]).toContain('in line 3,');
  });

  test('where the process reads what it has just written, that is another circuit: offered apart, and asked', async () => {
    const [same, other] = await curesOf(text('t = d; u <= t & e;'), 'mixed-assignment');
    expect(same.cure.proof).toMatchObject({ holds: false });
    expect(same.cure.proof.says.at(-1)).toBe('u would get another value');
    expect(other.cure.proof.holds).toBe(true);
    expect(other.cure.differs).toEqual([
      't is read with the value from before the edge in line 2, instead of what was just assigned',
    ]);
    expect(other.cure.asks).toEqual(['the read of t in line 2 comes one period later']);
  });

  test('= in a process of logic', async () => {
    const tried = await cureOf(
      'module m(input a, b, output reg y, output reg z); always @* begin y <= a & b; z = a; end endmodule',
      'mixed-assignment',
    );
    expect(tried?.text).toContain('begin y = a & b; z = a; end');
    expect(tried?.cure.proof.holds).toBe(true);
  });
});

test('bare-crossing of a code that changes one bit at a time: both bits through two flip-flops', async () => {
  const crossing = (next: string) => `module m(input a, b, ra, output reg [1:0] q);
  reg [1:0] code;
  always @(posedge a or posedge ra)
    if (ra) code <= 0;
    else ${next}
  always @(posedge b) q <= code;
endmodule
`;
  const tried = await cureOf(crossing('code <= {code[0], ~code[1]};'), 'bare-crossing');
  expect(tried?.text).toContain('  reg [1:0] code_meta, code_sync;\n');
  expect(tried?.cure.proof.holds).toBe(true);
  expect(tried?.cure.differs[1]).toContain('one bit at a time');
  expect(await cureOf(crossing('code <= code + 1;'), 'bus-crossing')).toBeNull();
});
