//>> because a register without a reset has a process of its own
module own(input clk, input rst_n, input d, output reg a, output reg b);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n) if (!rst_n) a <= 0; else a <= d;
  always @(posedge clk) b <= a;  //> b quiet
endmodule
