//>> because pulses up to the threshold are not looked at
//>> project {"clocks":{"clk":{"periodPs":40000}},"inputs":{"go":{"pulse":{"atPs":90000,"widthPs":2000}}}}
`timescale 1ns/1ns
module flop(input d, c, r, output reg q);
  always @(posedge c) q <= d & ~r;
  specify
    (posedge c => (q +: d)) = 2;
    $width(posedge r, 4, 2);
  endspecify
endmodule
module passed(input clk, go, output q);
  flop one(1'b1, clk, go, q);  //> one quiet
endmodule
