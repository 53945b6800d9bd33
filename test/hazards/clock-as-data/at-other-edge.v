//>> because the fall samples the level that falls with it, though it is turned over on the way
module other_edge(input clk, input d, output reg a, output reg b);
  wire clk_n = ~clk;
  always @(posedge clk) a <= d;
  always @(negedge clk) b <= clk_n;  //> b finding clock-as-data
endmodule
