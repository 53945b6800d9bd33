// The text around an example of the table, by where its construct stands.

const ports = 'input a, b, clk, input [3:0] v, output y, output reg r';

const frames: Readonly<Record<string, (example: string) => string>> = {
  source: (example) => example,
  item: (example) => `module m(${ports}); ${example}\nendmodule`,
  statement: (example) =>
    `module m(${ports}); integer i; reg [3:0] t; always @* begin t = 0; i = 0; ${example} end endmodule`,
  edge: (example) => `module m(${ports}); reg q; always @(posedge clk) begin ${example} end assign y = q; endmodule`,
  expression: (example) => `module m(${ports}); wire [15:0] value = ${example}; endmodule`,
};

export function textOf(where: string, example: string): string {
  const frame = frames[where];
  if (frame === undefined) throw new Error(`no such place: ${where}`);
  return frame(example);
}
