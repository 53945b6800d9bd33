//>> because an enable from the same edge moves while the gate passes
module early(input clk, input wish, input d, output reg q);
  reg en;
  wire g = clk & en;  //> & finding gated-clock certain warning
  always @(posedge clk) en <= wish;
  always @(posedge g) q <= d;
endmodule
