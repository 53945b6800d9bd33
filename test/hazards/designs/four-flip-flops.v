//>> because the ripple counter of the textbooks is one chain and nothing else
module t_ff(output reg q, input clk, input reset);
  always @(negedge clk or posedge reset) if (reset) q <= 1'b0; else q <= ~q;  //> clk finding ripple-chain
endmodule
module ripple_carry_counter(output [3:0] q, input clk, input reset);  //> reset finding reset-release
  t_ff tff0(q[0], clk, reset);
  t_ff tff1(q[1], q[0], reset);
  t_ff tff2(q[2], q[1], reset);
  t_ff tff3(q[3], q[2], reset);
endmodule
