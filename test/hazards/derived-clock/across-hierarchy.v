//>> because a derived clock is one through ports too; it is told in the module that clocks by it
module divider(input clk, output reg slow);
  initial slow = 0;
  always @(posedge clk) slow <= ~slow;
endmodule
module reader(input c, input d, output reg q);
  always @(posedge c) q <= d;  //> c finding derived-clock | q clock u0.slow rising
endmodule
module board(input clk, input d, output q);
  wire between;
  divider u0(.clk(clk), .slow(between));
  reader u1(.c(between), .d(d), .q(q));
endmodule
