//>> because one toggle is no chain
module single(input clk, output reg q);
  initial q = 0;
  always @(negedge clk) q <= ~q;  //> q quiet, stage 1
endmodule
