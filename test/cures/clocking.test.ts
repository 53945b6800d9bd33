// Cures of clocks: an edge of a register's output, or of logic, becomes an enable; so does a gate, where its control stands
// still while the clock passes.

import { describe, expect, test } from 'vitest';
import { cureOf } from './tried';

describe('derived-clock', () => {
  test('a divider under a condition: the condition and the level it turns from', async () => {
    const tried = await cureOf(
      `module m(input clk, input [3:0] d, output reg [3:0] q);
  reg slow = 0; reg [1:0] n = 0;
  initial q = 0;
  always @(posedge clk) begin
    n <= n + 1;
    if (n == 2) slow <= ~slow; // every fourth
  end
  always @(negedge slow)
    q <= d;
endmodule
`,
      'derived-clock',
    );
    expect(tried?.text).toContain('  always @(posedge clk)\n    if ((n == 2) && slow) q <= d;');
    expect(tried?.cure).toMatchObject({ asks: [], proof: { holds: true, gained: [] } });
  });

  test('resets stay in the list, and before the enable', async () => {
    const tried = await cureOf(
      `module m(input clk, rst, d, output reg q);
  reg [2:0] n;
  always @(posedge clk or posedge rst) if (rst) n <= 0; else n <= n + 1;
  always @(posedge n[2] or posedge rst)
    if (rst) q <= 0;
    else q <= d;
endmodule
`,
      'derived-clock',
    );
    expect(tried?.text).toContain(
      'always @(posedge clk or posedge rst)\n    if (rst) q <= 0;\n    else if (~n[2] & &n[1:0]) q <= d;',
    );
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('a decode that clocks: by its value now and after the edge, the next value as a wire of its own', async () => {
    const tried = await cureOf(
      `module m(input clk, d, output reg q);
  reg [1:0] n = 0;
  wire tick = (n == 2);
  initial q = 0;
  always @(posedge clk) if (n == 2) n <= 0; else n <= n + 1;
  always @(posedge tick) q <= d;
endmodule
`,
      'derived-clock',
    );
    expect(tried?.text).toContain('  wire [1:0] n_next = (n == 2) ? 0 : (n + 1);\n  always @(posedge clk) if (n == 2)');
    expect(tried?.text).toContain('always @(posedge clk) if (!tick && (n_next == 2)) q <= d;');
    expect(tried?.cure.proof.holds).toBe(true);
  });

  test('asks for what moved at the same root edge', async () => {
    const tried = await cureOf(
      `module m(input clk, d, output reg q);
  reg slow = 0, fresh = 0;
  initial q = 0;
  always @(posedge clk) begin slow <= ~slow; fresh <= d; end
  always @(posedge slow) q <= fresh;
endmodule
`,
      'derived-clock',
    );
    expect(tried?.cure.proof.holds).toBe(true);
    expect(tried?.cure.asks).toEqual(['q samples the value of fresh from before the edge of clk instead of after it']);
  });

  test('not where the clocked block stands in another module', async () => {
    const text = `module m(input clk, d, output q);
  reg slow = 0;
  always @(posedge clk) slow <= ~slow;
  leaf u(slow, d, q);
endmodule
module leaf(input c, d, output reg q); always @(posedge c) q <= d; endmodule
`;
    expect(await cureOf(text, 'derived-clock')).toBeNull();
  });
});

describe('gated-clock', () => {
  const gated = (gate: string, edge = 'posedge') => `module m(input clk, d, en, output reg q);
  reg on = 0, held;
  always @(negedge clk) on <= en;
  always @* if (!clk) held = en;
  ${gate}
  initial q = 0;
  always @(${edge} g) q <= d;
endmodule
`;

  test.each([
    ['wire g = clk & on;', 'posedge', 'always @(posedge clk) if (on) q'],
    ['wire g; and a1(g, clk, held);', 'posedge', 'always @(posedge clk) if (held) q'],
    ['wire g; assign g = ~(clk & on);', 'negedge', 'always @(posedge clk) if (on) q'],
    ['wire g = ~clk | !on;', 'negedge', 'always @(posedge clk) if (on) q'],
  ])('%s sampled on its %s', async (gate, edge, expected) => {
    const tried = await cureOf(gated(gate, edge), 'gated-clock');
    expect(tried?.text).toContain(expected);
    expect(tried?.cure).toMatchObject({ differs: [], asks: [], proof: { holds: true, gained: [] } });
    expect(tried?.cure.proof.says.at(-1)).toContain('in every state that inputs can lead to');
  });

  test('a port is taken to move only while the gate is closed, and that is said', async () => {
    const tried = await cureOf(gated('wire g = clk & en;'), 'gated-clock');
    expect(tried?.cure.proof.holds).toBe(true);
    expect(tried?.cure.proof.says.at(-1)).toContain('as long as en moves only while clk is low');
    expect(tried?.cure.differs).toEqual(['a change of en while clk is high makes no edge any more']);
  });

  test('not where the control moves at the edge that the gate lets through', async () => {
    const tried = await cureOf(
      gated('wire g = clk & late; reg late = 0; always @(posedge clk) late <= en;'),
      'gated-clock',
    );
    expect(tried?.cure.proof.holds).toBe(false);
    expect(tried?.cure.proof.says.at(-1)).toBe('q reads otherwise');
  });

  test('not from another clock domain: that is a crossing first', async () => {
    const text = gated('wire g = clk & far; reg far = 0; always @(posedge d) far <= en;');
    expect(await cureOf(text, 'gated-clock')).toBeNull();
  });
});
