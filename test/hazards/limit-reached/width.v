//>> because a vector is no wider than the limit allows
//>> limit width=64
module wide(input clk, output y);
  wire [99:0] huge;  //> [99:0] finding limit-reached
  assign y = clk;
endmodule
