// Functions, tasks, memories, early exits, primitives and defparam as they are typed: every beginning of the text, and the
// text without any one of its lines, gives a netlist or none, and never a mistake of our own. Places lie inside the text.

import { expect, it } from 'vitest';
import { netlistOf } from '../tools/elaborated';

const text = `primitive pick(y, s, a, b);
  output y; input s, a, b;
  table 0 1 ? : 1; 0 0 ? : 0; 1 ? 1 : 1; 1 ? 0 : 0; endtable
endprimitive
module part #(parameter W = 2) (input [W-1:0] in, output out);
  assign out = ^in;
endmodule
module whole #(parameter N = size(9)) (input clk, we, input [N-1:0] at, input [7:0] d, output reg [7:0] q, output y, z);
  function integer size(input integer n);
    for (size = 0; n > 1; size = size + 1) n = (n + 1) / 2;
  endfunction
  function automatic [7:0] folded(input [7:0] w, input integer turns);
    if (turns == 0) folded = w; else folded = folded({w[0], w[7:1]} ^ 8'h1d, turns - 1);
  endfunction
  reg [7:0] words [0:15];
  reg [3:0] first;
  integer i;
  task put(input [N-1:0] where, input [7:0] what);
    begin : body
      if (!we) disable body;
      words[where] <= what;
    end
  endtask
  initial for (i = 0; i < 16; i = i + 1) words[i] = i;
  always @(posedge clk) begin
    put(at, folded(d, 3));
    q <= words[at];
  end
  always @* begin : search
    first = 8;
    for (i = 0; i < 8; i = i + 1) if (q[i]) begin first = i; disable search; end
  end
  pick u(z, we, first[0], first[1]);
  defparam v.W = 8;
  part v(q, y);
endmodule
`;

async function expectSound(damaged: string): Promise<void> {
  const { complaints, reading } = await netlistOf(damaged, { top: 'whole' });
  for (const { place } of complaints) {
    expect(place.start).toBeGreaterThanOrEqual(0);
    expect(place.end).toBeLessThanOrEqual(reading.units[place.unit]?.text.length ?? 0);
    expect(place.start).toBeLessThanOrEqual(place.end);
  }
}

it('the text as a whole is read', async () => {
  const { complaints } = await netlistOf(text, { top: 'whole' });
  expect(complaints).toEqual([]);
});

it('every beginning', { timeout: 120_000 }, async () => {
  for (let length = 0; length < text.length; length += 1) await expectSound(text.slice(0, length));
});

it('without any one of its lines', { timeout: 60_000 }, async () => {
  const lines = text.split('\n');
  for (const left of lines.keys()) await expectSound(lines.filter((_, index) => index !== left).join('\n'));
});

it('without any one of its marks', { timeout: 120_000 }, async () => {
  for (const { index } of text.matchAll(/[()[\]{};:,]|begin|end\b/g)) {
    await expectSound(`${text.slice(0, index)} ${text.slice(index + 1)}`);
  }
});
