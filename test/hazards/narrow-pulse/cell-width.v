//>> because the clock is high for 3 ns, and the cell asks for 5 ns
//>> project {"clocks":{"clk":{"periodPs":40000,"highPs":3000}}}
`timescale 1ns/1ns
module flop(input d, c, output reg q);
  initial q = 0;
  always @(posedge c) q <= d;
  specify
    (posedge c => (q +: d)) = 2;
    $width(posedge c, 5);  //> $width finding narrow-pulse certain
    $width(negedge c, 5);
  endspecify
endmodule
module halver(input clk, output q);
  flop one(~q, clk, q);
endmodule
