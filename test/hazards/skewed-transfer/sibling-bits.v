//>> because bits of one counter are no cause of each other: one clocks, the other is sampled
module siblings(input clk, output reg q);
  reg [1:0] n;
  initial n = 0;
  always @(posedge clk) n <= n + 1;
  always @(posedge n[1]) q <= n[0];  //> n[1] finding derived-clock | q finding skewed-transfer
endmodule
