//>> because the pulse that clears the count is meant (Floyd, Digital Fundamentals ch. 9, asynchronous decade counter)
module decade(input clk, output reg [3:0] q);
  wire clear_n = ~(q[1] & q[3]);  //> q quiet
  initial q = 0;
  always @(negedge clk or negedge clear_n)  if (!clear_n) q[0] <= 0; else q[0] <= ~q[0];  //> clear_n#2 finding decoded-reset
  always @(negedge q[0] or negedge clear_n) if (!clear_n) q[1] <= 0; else q[1] <= ~q[1];  //> q finding ripple-chain warning
  always @(negedge q[1] or negedge clear_n) if (!clear_n) q[2] <= 0; else q[2] <= ~q[2];
  always @(negedge q[2] or negedge clear_n) if (!clear_n) q[3] <= 0; else q[3] <= ~q[3];
endmodule
