//>> because a tied control is a fact and no finding
module tied(input clk, input d, output reg q);
  wire on = 1'b1;
  wire g = clk & on;  //> g quiet
  always @(posedge g) q <= d;
endmodule
