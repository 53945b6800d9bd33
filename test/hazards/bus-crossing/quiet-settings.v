//>> because settings that a person states to stand still cross whenever they like
//>> project {"static": ["setting"]}
module settings(input clk_a, clk_b, load, input [3:0] d, output reg [3:0] limit);
  reg [3:0] setting = 0;
  initial limit = 0;
  always @(posedge clk_a) if (load) setting <= d;
  always @(posedge clk_b) limit <= setting;  //> limit quiet, crossing accepted one-flop
endmodule
