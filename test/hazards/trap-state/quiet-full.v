//>> because a counter that uses every value has none to be trapped in
module full(input clk, output reg [3:0] n);
  initial n = 5;
  always @(posedge clk) n <= n + 3;  //> n quiet
endmodule
