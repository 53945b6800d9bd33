//>> because a clear that is sampled lasts a period
module at_edge(input clk, output reg [3:0] n);
  initial n = 0;
  wire full = n == 4'd9;  //> full quiet
  always @(posedge clk) if (full) n <= 0; else n <= n + 1;
endmodule
