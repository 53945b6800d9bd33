//>> because a delay of 1.26 ns is rounded to the precision of its module, 0.1 ns, before it is ps (rule 19)
`timescale 1ns/100ps
module slow(input clk, output later);
  reg q;
  initial q = 0;
  always @(posedge clk) q <= 1;  //> q at 10999 0, at 11000 1
  assign #1.26 later = q;  //> later at 12299 0, at 12300 1
endmodule
