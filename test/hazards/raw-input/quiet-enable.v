//>> because a port that one clock hears is taken to be in step with it
module counter(input clk, enable, output reg [3:0] n, output reg any);
  initial {n, any} = 0;
  always @(posedge clk) if (enable) n <= n + 1;  //> enable quiet
  always @(posedge clk) any <= any | enable;
endmodule
