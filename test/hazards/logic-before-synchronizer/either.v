//>> because an or of two registers can drop to 0 for a moment while one takes over from the other
module either(input clk_a, clk_b, output reg q);
  reg left = 1, right = 0, first = 0;
  initial q = 0;
  always @(posedge clk_a) {left, right} <= {right, left};
  wire any = left | right;  //> left finding decoded-glitch
  always @(posedge clk_b) begin
    first <= any;  //> first finding logic-before-synchronizer
    q <= first;
  end
endmodule
