//>> because an or of two clocks' registers is let go by whichever is last
module either(input clk_a, clk_b, input [1:0] stop, output reg [1:0] n);
  reg a = 1, b = 1;
  initial n = 0;
  always @(posedge clk_a) a <= stop[0];
  always @(posedge clk_b) b <= stop[1];
  wire clear = a | b;
  always @(posedge clk_b or posedge clear)
    if (clear) n <= 0;  //> clear finding reset-crossing
    else n <= n + 1;
endmodule
