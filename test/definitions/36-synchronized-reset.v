//>> because a reset that ends through two flip-flops of the clock is handled (rule 36)
module handled(input clk, input rst_n, input d, output reg a);  //> rst_n quiet
  reg r1, r2;
  always @(posedge clk or negedge rst_n) if (!rst_n) {r2, r1} <= 0; else {r2, r1} <= {r1, 1'b1};
  always @(posedge clk or negedge r2) if (!r2) a <= 0; else a <= d;  //> a asynchronous r2 low
endmodule
