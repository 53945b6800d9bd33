//>> because stages that clock one another are read as a count, and a divider turns its own register over
module ripple(input clk, output reg [1:0] q, output reg odd);
  initial {q, odd} = 0;
  always @(posedge clk) q[0] <= ~q[0];  //> q quiet
  always @(negedge q[0]) q[1] <= ~q[1];  //> q[0] finding ripple-chain
  always @(negedge clk) odd <= q[0];  //> odd quiet
endmodule
