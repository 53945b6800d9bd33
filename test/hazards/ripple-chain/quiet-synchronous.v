//>> because a synchronous counter written bit by bit is no chain
module synchronous(input clk, output reg [2:0] q);
  initial q = 0;
  always @(posedge clk) q[0] <= ~q[0];  //> q[0] quiet
  always @(posedge clk) q[1] <= q[1] ^ q[0];  //> q[1] quiet
  always @(posedge clk) q[2] <= q[2] ^ (q[1] & q[0]);
endmodule
