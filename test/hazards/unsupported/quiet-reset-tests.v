//>> because every one of these is a test of a reset that the standard knows (IEEE 1364.1)
module tests(input clk, input rst_n, input d, output reg a, output reg b, output reg c);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n) if (!rst_n) a <= 1'b0; else a <= d;  //> a quiet, asynchronous rst_n low
  always @(posedge clk or negedge rst_n) if (~rst_n) b <= 1'b0; else b <= a;  //> b quiet, asynchronous rst_n low
  always @(posedge clk, negedge rst_n) if (rst_n == 1'b0) c <= 1'b0; else c <= b;  //> c quiet, asynchronous rst_n low
endmodule
