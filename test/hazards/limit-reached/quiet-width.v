//>> because a vector as wide as the limit is read
//>> limit width=64
module just_wide(input clk, input [63:0] d, output reg [63:0] q);
  always @(posedge clk) q <= d;  //> q quiet
endmodule
