//>> because a person states that it stands still
//>> project {"static": ["mode"]}
module stated(input clk_a, clk_b, mode, output reg [3:0] a, b);  //> mode quiet
  initial {a, b} = 0;
  always @(posedge clk_a) if (mode) a <= a + 1;
  always @(posedge clk_b) if (mode) b <= b + 1;
endmodule
