//>> because the links of a chain are one finding, at the edge list of its second stage (rule 10)
module ripple(input clk, output reg [3:0] q);
  initial q = 0;
  always @(negedge clk)  q[0] <= ~q[0];  //> q[0] stage 1, ratio 2/1, duty 1/2
  always @(negedge q[0]) q[1] <= ~q[1];  //> q[0] finding ripple-chain warning | q[1] stage 2, ratio 4/1
  always @(negedge q[1]) q[2] <= ~q[2];  //> q[1] quiet | q[2] stage 3
  always @(negedge q[2]) q[3] <= ~q[3];  //> q[2] quiet | q[3] stage 4, ratio 16/1, counts up 16
endmodule
