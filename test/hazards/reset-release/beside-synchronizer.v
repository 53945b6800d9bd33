//>> because the release is synchronized for one register, and the other takes the port itself
module beside(input clk, input rst_n, input d, output reg good, output reg bad);  //> rst_n finding reset-release
  reg r1, r2;
  always @(posedge clk or negedge rst_n) if (!rst_n) {r2, r1} <= 0; else {r2, r1} <= {r1, 1'b1};
  always @(posedge clk or negedge r2) if (!r2) good <= 0; else good <= d;
  always @(posedge clk or negedge rst_n) if (!rst_n) bad <= 0; else bad <= good;
endmodule
