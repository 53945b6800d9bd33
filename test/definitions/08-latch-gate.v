//>> because a latch that is open while the clock is low and only controls an AND gate is a sound gate (rules 8 and 9)
module latched_gate(input clk, input wish, input d, output reg q);
  reg hold;
  wire gated = clk & hold;  //> & finding gated-clock information
  always_latch if (!clk) hold = wish;  //> hold latch intended, quiet
  always @(posedge gated) q <= d;  //> q root clk rising, stage 1 | gated kind gated sound
endmodule
