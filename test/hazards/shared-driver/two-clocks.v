//>> because one variable written by two clocks is no register that exists; that is told once, not as a crossing too
module both(input clk_a, clk_b, output reg [3:0] n);
  initial n = 0;
  always @(posedge clk_a) n <= n + 1;
  always @(negedge clk_b) n <= 0;  //> n finding shared-driver error
endmodule
