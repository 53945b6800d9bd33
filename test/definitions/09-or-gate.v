//>> because for an OR gate the clock blocks while high: an enable from a rising-edge register is sound there (rule 9)
module or_gate(input clk, input wish, input d, output reg q);
  reg off;
  wire gated = clk | off;  //> off finding gated-clock information
  always @(posedge clk) off <= wish;
  always @(posedge gated) q <= d;  //> gated kind gated sound
endmodule
