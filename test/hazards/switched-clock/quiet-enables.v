//>> because choosing the rate by enables leaves one clock
module rates(input clk, input rst, input fast, output reg [3:0] n);
  reg [7:0] divider;
  always @(posedge clk) if (rst) divider <= 0; else divider <= divider + 1;
  wire tick = fast ? &divider[3:0] : &divider;  //> tick quiet
  always @(posedge clk) if (rst) n <= 0; else if (tick) n <= n + 1;
endmodule
