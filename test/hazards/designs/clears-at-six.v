//>> because a ripple counter that clears itself at six
module mod6(input clk, output reg [2:0] q);
  wire rst = (q == 6);
  initial q = 0;
  always @(negedge clk or posedge rst) if (rst) q[0] <= 0; else q[0] <= ~q[0];  //> rst#2 finding decoded-reset
  always @(negedge q[0] or posedge rst) if (rst) q[1] <= 0; else q[1] <= ~q[1];  //> q finding ripple-chain
  always @(negedge q[1] or posedge rst) if (rst) q[2] <= 0; else q[2] <= ~q[2];
endmodule
