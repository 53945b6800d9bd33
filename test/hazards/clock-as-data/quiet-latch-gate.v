//>> because a clock that opens the latch of a clock gate is where it belongs
module latch_gate(input clk, input en, input d, output reg q);
  reg open;
  always_latch if (!clk) open <= en;  //> open quiet
  wire tick = clk & open;  //> & finding gated-clock information
  always @(posedge tick) q <= d;  //> q quiet
endmodule
