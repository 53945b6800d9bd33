//>> because an enable from a falling-edge register changes only while the clock is low: sound (rule 9)
module sound_gate(input clk, input wish, input d, output reg q);
  reg en;
  wire gated = clk & en;  //> & finding gated-clock information
  always @(negedge clk) en <= wish;
  always @(posedge gated) q <= d;  //> gated kind gated sound
endmodule
