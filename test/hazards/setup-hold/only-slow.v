//>> because only the largest delays of the cell leave too little before the next edge
//>> project {"clocks":{"clk":{"periodPs":12000}}}
`timescale 1ns/1ns
module flop(input d, c, output reg q);
  initial q = 0;
  always @(posedge c) q <= d;
  specify
    (posedge c => (q +: d)) = 4:6:9;
    $setup(d, posedge c, 4);  //> $setup finding setup-hold possible
  endspecify
endmodule
module halver(input clk, output q);
  flop one(~q, clk, q);
endmodule
