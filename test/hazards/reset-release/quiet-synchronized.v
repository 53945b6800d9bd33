//>> because two flip-flops let go in step with the clock: the reset acts at once and ends at an edge
module synchronized(input clk, input rst_n, input d, output reg q);  //> rst_n quiet
  reg r1, r2;
  always @(posedge clk or negedge rst_n) if (!rst_n) {r2, r1} <= 0; else {r2, r1} <= {r1, 1'b1};
  always @(posedge clk or negedge r2) if (!r2) q <= 0; else q <= d;
endmodule
