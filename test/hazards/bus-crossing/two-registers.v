//>> because two bits of a state sampled side by side may be seen one old and one new
module state_over(input clk_a, clk_b, go, output reg [1:0] seen);
  reg idle = 1, busy = 0;
  initial seen = 0;
  always @(posedge clk_a) {idle, busy} <= go ? {busy, idle} : {idle, busy};
  always @(posedge clk_b) seen <= {idle, busy};  //> seen finding bus-crossing
endmodule
