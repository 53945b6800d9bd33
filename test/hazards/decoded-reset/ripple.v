//>> because flip-flops of a truncated ripple counter need not be equally quick to clear (Floyd, Digital Fundamentals ch. 9)
module six(input clk, output reg [2:0] q);
  wire clear_n = ~(q[1] & q[2]);
  initial q = 0;
  always @(negedge clk or negedge clear_n)  if (!clear_n) q[0] <= 0; else q[0] <= ~q[0];  //> clear_n#2 finding decoded-reset
  always @(negedge q[0] or negedge clear_n) if (!clear_n) q[1] <= 0; else q[1] <= ~q[1];  //> q finding ripple-chain
  always @(negedge q[1] or negedge clear_n) if (!clear_n) q[2] <= 0; else q[2] <= ~q[2];
endmodule
