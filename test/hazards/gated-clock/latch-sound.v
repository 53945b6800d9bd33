//>> because a latch that is open while the gate blocks makes it sound: information
module latched(input clk, input en, input d, output reg q);
  reg held;
  always_latch if (!clk) held = en;
  wire g = clk & held;  //> & finding gated-clock information
  always @(posedge g) q <= d;
endmodule
