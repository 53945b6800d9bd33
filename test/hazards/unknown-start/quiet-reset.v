//>> because a reset makes it known
module with_reset(input clk, input rst, output reg q);
  always @(posedge clk) if (rst) q <= 0; else q <= ~q;  //> q quiet
endmodule
