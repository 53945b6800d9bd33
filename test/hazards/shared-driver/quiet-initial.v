//>> because a start value and a process are one register (rule 41)
module started(input clk, input d, output reg q);
  initial q = 1;
  always @(posedge clk) q <= d;  //> q quiet, start 1
endmodule
