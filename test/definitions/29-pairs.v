//>> because between two registers of one clock net no skew is to be judged, whatever the clock goes through; where the capture clock is later by 1 ns and the hold time is 2 ns, data that comes after 3 ns is 2 ns behind it, and data that comes after 2 ns only 1 ns (rule 29)
//>> project {"delays": "part", "delaySets": {"part": {"clockToQ": {"first": {"rise": 2000, "fall": 2000}}, "hold": 2000}}}
`timescale 1ns/1ps
module pairs(input clk, input d, output reg same, output reg kept, output reg lost);
  reg a;
  initial {a, same, kept, lost} = 0;
  wire #1 behind = clk;
  wire #1 later = a;
  always @(posedge clk) a <= d;
  always @(posedge clk) same <= a;  //> same quiet
  always @(posedge behind) kept <= later;  //> kept quiet
  always @(posedge behind) lost <= a;  //> lost finding skewed-transfer warning
endmodule
