//>> because a clock that chooses what an output shows is no data of a register
module output_choice(input clk, input [1:0] d, output q);
  reg a, b;
  always @(posedge clk) a <= d[0];
  always @(negedge clk) b <= d[1];
  assign q = clk ? a : b;  //> clk finding decoded-glitch hint
endmodule
