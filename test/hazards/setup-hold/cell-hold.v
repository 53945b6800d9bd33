//>> because the cell asks that data stays 3 ns, and the cell before it answers after 2 ns at the soonest
//>> project {"clocks":{"clk":{"periodPs":40000}}}
`timescale 1ns/1ns
module flop(input d, c, output reg q);
  initial q = 0;
  always @(posedge c) q <= d;
  specify
    (posedge c => (q +: d)) = 2;
    $hold(posedge c, d, 3);  //> $hold finding setup-hold certain
  endspecify
endmodule
module pair(input clk, output q);
  wire a;
  flop first(~a, clk, a), second(a, clk, q);
endmodule
