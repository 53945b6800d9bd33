//>> because a release in step with one clock is not in step with another
module elsewhere(input clk_a, clk_b, rst_n, output reg [2:0] a, b);
  reg [1:0] release_a;
  wire ok = release_a[1];
  always @(posedge clk_a or negedge rst_n)
    if (!rst_n) release_a <= 0;
    else release_a <= {release_a[0], 1'b1};
  always @(posedge clk_a or negedge ok) if (!ok) a <= 0; else a <= a + 1;
  always @(posedge clk_b or negedge ok)
    if (!ok) b <= 0;  //> ok finding reset-crossing
    else b <= b + 1;
endmodule
