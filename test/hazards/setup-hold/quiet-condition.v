//>> because the check counts only while the cell is enabled
//>> project {"clocks":{"clk":{"periodPs":40000}},"inputs":{"en":"0","d":{"levels":[{"atPs":0,"value":"0"},{"atPs":59000,"value":"1"}]}}}
`timescale 1ns/1ns
module flop(input d, c, e, output reg q);
  always @(posedge c) if (e) q <= d;
  specify
    (posedge c => (q +: d)) = 2;
    $setup(d, posedge c &&& e, 3);
  endspecify
endmodule
module waits(input clk, input d, en, output q);
  flop u(d, clk, en, q);
endmodule
