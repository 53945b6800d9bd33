//>> because an initial block beside an always block is a start value, not a second driver (rule 41)
module started(input clk, output reg q);
  initial q = 1'b0;
  always @(posedge clk) q <= ~q;  //> q quiet, start 0
endmodule
