//>> because the clear of the cell pulses for 2 ns only
//>> project {"clocks":{"clk":{"periodPs":40000}},"inputs":{"go":{"pulse":{"atPs":90000,"widthPs":2000}}}}
`timescale 1ns/1ns
module flop(input d, c, r, output reg q);
  always @(posedge c or posedge r) if (r) q <= 0; else q <= d;
  specify
    (posedge c => (q +: d)) = 2;
    (posedge r => (q +: 1'b0)) = 2;
    $width(posedge r, 4);  //> $width finding narrow-pulse certain
  endspecify
endmodule
module cleared(input clk, go, output q);  //> go finding reset-release
  flop one(1'b1, clk, go, q);
endmodule
