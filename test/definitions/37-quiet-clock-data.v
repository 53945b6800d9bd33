//>> because a ripple that is read as a count, and a divider's own feedback, are no clocks used as data (rule 37)
module quiet_divider(input clk, output reg [1:0] q, output [1:0] count);
  initial q = 0;
  assign count = q;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> q[0] finding ripple-chain
endmodule
