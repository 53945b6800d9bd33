//>> because a raw reset port in an edge list is never an alarm per register (rule 36)
module raw(input clk, input rst_n, input d, output reg a, b, c);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n) if (!rst_n) a <= 0; else a <= d;  //> rst_n quiet
  always @(posedge clk or negedge rst_n) if (!rst_n) b <= 0; else b <= a;
  always @(posedge clk or negedge rst_n) if (!rst_n) c <= 0; else c <= b;
endmodule
