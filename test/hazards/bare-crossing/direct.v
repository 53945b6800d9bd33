//>> because one flip-flop between two unrelated clocks may be metastable and is read at once
module direct(input clk_a, input clk_b, output reg q, output reg r);
  reg flag;
  initial flag = 0;
  always @(posedge clk_a) flag <= ~flag;
  always @(posedge clk_b) q <= flag;  //> q finding bare-crossing warning
  always @(posedge clk_b) r <= ~q & r;
endmodule
