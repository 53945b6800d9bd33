//>> because an enable from a rising-edge register of the same clock cuts the pulse or makes a stray one (rule 9)
module stray(input clk, input wish, input d, output reg q);
  reg en;
  wire gated = clk & en;  //> & finding gated-clock certain warning
  always @(posedge clk) en <= wish;
  always @(posedge gated) q <= d;  //> gated kind gated unsound
endmodule
