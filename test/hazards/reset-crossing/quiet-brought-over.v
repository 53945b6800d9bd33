//>> because two flip-flops of the receiving clock let go in step
module brought_over(input clk_a, clk_b, start, output reg [3:0] n);
  reg run = 0;
  reg [1:0] ok;
  always @(posedge clk_a) run <= start;
  always @(posedge clk_b or negedge run)
    if (!run) ok <= 0;  //> run quiet
    else ok <= {ok[0], 1'b1};
  always @(posedge clk_b or negedge ok[1])
    if (!ok[1]) n <= 0;  //> ok quiet
    else n <= n + 1;
endmodule
