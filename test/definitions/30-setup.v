//>> because data that moves less than the setup time before the edge that samples it gives the old or the new value (rule 30)
//>> project {"delays": "part", "delaySets": {"part": {"clockToQ": {"first": {"rise": 1000, "fall": 1000}}, "setup": 3000}}}
`timescale 1ns/1ps
module setup(input clk, output reg met, output reg missed);
  reg d;
  initial {d, met, missed} = 0;
  wire #8 early = clk;
  wire #6 late = d;
  always @(posedge clk) d <= ~d;  //> d at 11000 1 | d#2 quiet
  always @(posedge early) met <= d;  //> met at 19000 1, quiet
  always @(posedge early) missed <= late;  //> missed at 18999 0, at 19000 x, finding skewed-transfer warning
endmodule
