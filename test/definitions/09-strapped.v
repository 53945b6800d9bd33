//>> because a tied control is a fact, no finding (rule 9)
module strapped(input clk, input d, output reg q);
  wire gated = clk & 1'b1;
  always @(posedge gated) q <= d;  //> q root clk rising, quiet
endmodule
