//>> because two flip-flops in a row and nothing between are a synchronizer
module synchronizer(input clk_a, input clk_b, output reg q);
  reg flag, first;
  initial flag = 0;
  always @(posedge clk_a) flag <= ~flag;
  always @(posedge clk_b) {q, first} <= {first, flag};  //> first quiet, crossing protected two-flop
endmodule
