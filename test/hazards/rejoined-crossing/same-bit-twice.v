//>> because two copies of one bit may arrive in different periods
module copies(input clk_a, clk_b, d, output reg differ);
  reg flag = 0;
  wire here, there;
  initial differ = 0;
  always @(posedge clk_a) flag <= d;
  over one(clk_b, flag, here), other(clk_b, flag, there);
  always @(posedge clk_b) differ <= here ^ there;  //> differ finding rejoined-crossing
endmodule
module over(input clk, d, output reg q);
  reg first = 0;
  initial q = 0;
  always @(posedge clk) {q, first} <= {first, d};
endmodule
