//>> because one port resets the registers of two clocks: it cannot end in step with both
module two_clocks(input clk_a, input clk_b, input rst, output reg a, output reg b);  //> rst finding reset-release
  always @(posedge clk_a or posedge rst) if (rst) a <= 0; else a <= ~a;
  always @(posedge clk_b or posedge rst) if (rst) b <= 0; else b <= ~b;
endmodule
