//>> because a choice of taps moves at any time while either may be high
module speeds(input clk, input rst, input fast, output reg [3:0] n);  //> rst finding reset-release
  reg [7:0] divider;
  always @(posedge clk) if (rst) divider <= 0; else divider <= divider + 1;
  wire c = fast ? divider[3] : divider[7];  //> fast finding switched-clock possible
  always @(posedge c or posedge rst) if (rst) n <= 0; else n <= n + 1;
endmodule
