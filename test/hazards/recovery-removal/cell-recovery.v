//>> because the reset lets go 2 ns before an edge, and the cell asks for 5 ns
//>> project {"clocks":{"clk":{"periodPs":20000,"phasePs":10000}},"inputs":{"rn":{"levels":[{"atPs":0,"value":"0"},{"atPs":68000,"value":"1"}]},"d":"1"}}
`timescale 1ns/1ns
module flop(input d, c, r, output reg q);
  always @(posedge c or negedge r) if (!r) q <= 0; else q <= d;
  specify
    (posedge c => (q +: d)) = 2;
    (negedge r => (q +: 1'b0)) = 2;
    $recovery(posedge r, posedge c, 5);  //> $recovery finding recovery-removal certain warning
  endspecify
endmodule
module one(input clk, d, rn, output q);  //> q at 75000 x | rn finding reset-release
  flop u(d, clk, rn, q);
endmodule
