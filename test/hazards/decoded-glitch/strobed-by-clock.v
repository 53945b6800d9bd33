//>> because while the clock is high the gate is shut, and the bits have settled before it is low
//>> project {"strobes": ["write"]}
module quiet_half(input clk, input rst, output write);
  reg [2:0] n;
  always @(posedge clk) if (rst) n <= 0; else n <= n + 1;
  assign write = (n == 5) & ~clk;  //> write quiet
endmodule
