//>> because the logic stands behind the two flip-flops
module behind(input clk_a, clk_b, d, en, output reg q);
  reg flag = 0, first = 0, second = 0;
  initial q = 0;
  always @(posedge clk_a) flag <= d;
  always @(posedge clk_b) begin
    first <= flag;
    second <= first;
    q <= second & en;  //> q quiet
  end
endmodule
