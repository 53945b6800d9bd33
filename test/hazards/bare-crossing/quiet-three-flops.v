//>> because three do as well
module three(input clk_a, input clk_b, output reg q);
  reg flag, one, two;
  initial flag = 0;
  always @(posedge clk_a) flag <= ~flag;
  always @(posedge clk_b) one <= flag;  //> one quiet, crossing protected three-flop
  always @(posedge clk_b) two <= one;
  always @(posedge clk_b) q <= two;
endmodule
