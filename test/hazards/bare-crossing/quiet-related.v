//>> because clocks of a stated relation do not cross
//>> project {"related": [["clk_a", "clk_b"]]}
module related(input clk_a, input clk_b, output reg q);
  reg flag;
  initial flag = 0;
  always @(posedge clk_a) flag <= ~flag;
  always @(posedge clk_b) q <= flag;  //> q quiet
endmodule
