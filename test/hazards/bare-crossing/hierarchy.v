//>> because a crossing is one through ports too
module sender(input c, output reg flag);
  initial flag = 0;
  always @(posedge c) flag <= ~flag;
endmodule
module receiver(input c, input d, output reg [1:0] n);
  initial n = 0;
  always @(posedge c) if (d) n <= n + 1;  //> n finding bare-crossing
endmodule
module two_clocks(input clk_a, input clk_b, output [1:0] n);
  wire flag;
  sender s(clk_a, flag);
  receiver r(clk_b, flag, n);
endmodule
