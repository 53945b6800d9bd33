//>> because a select from a port can move at any time
module selects(input fast_clk, input slow_clk, input pick, input d, output reg q);
  wire c = pick ? fast_clk : slow_clk;  //> pick finding switched-clock possible warning
  always @(posedge c) q <= d;
endmodule
