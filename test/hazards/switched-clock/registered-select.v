//>> because a select from a register of one clock moves while the other may be high
module registered(input fast_clk, input slow_clk, input wish, input d, output reg q);
  reg pick;
  always @(posedge fast_clk) pick <= wish;
  wire c = pick ? fast_clk : slow_clk;  //> pick finding switched-clock warning
  always @(posedge c) q <= d;
endmodule
