//>> because a register of the same clock samples it when it has settled
module into_register(input clk, a, b, s, output reg q);
  always @(posedge clk) q <= (s & a) | (~s & b);  //> q quiet
endmodule
