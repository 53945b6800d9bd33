//>> because one bit, inverted or not, has nothing to race with
module divided(input clk, input rst, output reg slow, output reg [1:0] n);
  wire tick = ~slow;
  always @(posedge clk) if (rst) slow <= 0; else slow <= ~slow;
  initial n = 0;
  always @(posedge tick) n <= n + 1;  //> tick finding ripple-chain warning
endmodule
