//>> because which of two is taken is decided on the other edge of the clock
module select(input clk, input pick, input a, input b, output reg q);
  reg picked;
  always @(negedge clk) picked <= pick;
  always @(posedge clk) q <= picked ? a : b;  //> q finding opposite-edges
endmodule
