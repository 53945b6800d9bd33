//>> because bits of two senders have no edge in common
module two_senders(input clk_a, clk_b, clk_c, input [1:0] d, output reg both);
  reg a = 0, b = 0;
  reg a_1 = 0, a_2 = 0, b_1 = 0, b_2 = 0;
  initial both = 0;
  always @(posedge clk_a) a <= d[0];
  always @(posedge clk_b) b <= d[1];
  always @(posedge clk_c) begin
    {a_2, a_1} <= {a_1, a};
    {b_2, b_1} <= {b_1, b};
    both <= a_2 & b_2;  //> both quiet
  end
endmodule
