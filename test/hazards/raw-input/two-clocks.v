//>> because it cannot be in step with two clocks that have no relation
module two_clocks(input clk_a, clk_b, enable, output reg [3:0] a, b);  //> enable finding raw-input
  initial {a, b} = 0;
  always @(posedge clk_a) if (enable) a <= a + 1;
  always @(posedge clk_b) if (enable) b <= b + 1;
endmodule
