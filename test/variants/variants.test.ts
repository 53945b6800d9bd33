// The same circuit written differently gives the same report, up to names, places, order and the cutting of vectors.

import { expect, it } from 'vitest';
import { reportOf } from '../tools/report-of';
import { essence } from './essence';

/** A ripple pair, a synchronous count with reset and enable, a decode of each, a gated clock. */
const original = `module top(input clk, input rst, input en, output reg [1:0] q, output reg [2:0] n, output hit, output reg g);
  initial q = 0;
  reg open;
  wire gated = clk & open;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  always @(posedge clk or posedge rst)
    if (rst) n <= 0;
    else if (en) n <= n + 1;
  always @(negedge clk) open <= n[0];
  always @(posedge gated) g <= ~g;
  assign hit = (q == 2'd2);
endmodule
`;

const same = (name: string) => name;

const variants: Readonly<Record<string, { readonly text: string; readonly rename?: (name: string) => string }>> = {
  'CRLF line ends': { text: original.replaceAll('\n', '\r\n') },
  'other names': {
    text: original.replace(/\b(clk|rst|en|q|n|hit|g|open|gated)\b/g, (name) => `${name}_other`),
    rename: (name) => name.replaceAll('_other', ''),
  },
  'blocks in another order': {
    text: `module top(input clk, input rst, input en, output reg [1:0] q, output reg [2:0] n, output hit, output reg g);
      reg open;
      wire gated;
      assign hit = (q == 2'd2);
      always @(posedge gated) g <= ~g;
      always @(negedge clk) open <= n[0];
      always @(posedge clk or posedge rst)
        if (rst) n <= 0;
        else if (en) n <= n + 1;
      always @(negedge q[0]) q[1] <= ~q[1];
      always @(negedge clk) q[0] <= ~q[0];
      assign gated = clk & open;
      initial q = 0;
    endmodule`,
  },
  'a header of the old form': {
    text: `module top(clk, rst, en, q, n, hit, g);
      input clk, rst, en; output [1:0] q; output [2:0] n; output hit; output g;
      reg [1:0] q; reg [2:0] n; reg g; reg open;
      wire gated = clk & open;
      initial q = 0;
      always @(negedge clk) q[0] <= ~q[0];
      always @(negedge q[0]) q[1] <= ~q[1];
      always @(posedge clk or posedge rst)
        if (rst) n <= 0;
        else if (en) n <= n + 1;
      always @(negedge clk) open <= n[0];
      always @(posedge gated) g <= ~g;
      assign hit = (q == 2'd2);
    endmodule`,
  },
  'a hierarchy around it': {
    text: `${original.replace('module top', 'module inner')}
    module top(input clk, input rst, input en, output [1:0] q, output [2:0] n, output hit, output g);
      inner u(.clk(clk), .rst(rst), .en(en), .q(q), .n(n), .hit(hit), .g(g));
    endmodule`,
    rename: (name) => name.replace(/^u\./, ''),
  },
  'vectors split into bits': {
    text: `module top(input clk, input rst, input en, output reg q0, q1, n0, n1, n2, output hit, output reg g);
      initial {q1, q0} = 0;
      reg open;
      wire gated = clk & open;
      always @(negedge clk) q0 <= ~q0;
      always @(negedge q0) q1 <= ~q1;
      always @(posedge clk or posedge rst)
        if (rst) {n2, n1, n0} <= 0;
        else if (en) {n2, n1, n0} <= {n2, n1, n0} + 1;
      always @(negedge clk) open <= n0;
      always @(posedge gated) g <= ~g;
      assign hit = ({q1, q0} == 2'd2);
    endmodule`,
    rename: (name) => name.replace(/^([qn])(\d)$/, '$1[$2]'),
  },
};

for (const [name, { text, rename }] of Object.entries(variants)) {
  it(name, async () => {
    const expected = essence(await reportOf([{ path: 'm.v', text: original }]), same);
    const found = essence(await reportOf([{ path: 'm.v', text }]), rename ?? same);
    expect(found).toEqual(expected);
  });
}
